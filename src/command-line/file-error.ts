import { errorMessage } from '../../shared/words/error-message.ts';

const words: Readonly<Record<string, string>> = {
	ENOENT: 'there is no such file or folder',
	EISDIR: 'it is a folder',
	ENOTDIR: 'a part of its path is not a folder',
	EACCES: 'it may not be accessed',
	EPERM: 'it may not be accessed',
	EROFS: 'the disk is read-only',
	ENOSPC: 'the disk is full',
	ENAMETOOLONG: 'its name is too long',
};

/** Why a file could not be read or written, in words. */
export function fileErrorWords(error: unknown): string {
	const code = (error as NodeJS.ErrnoException | undefined)?.code ?? '';
	return words[code] ?? errorMessage(error);
}
