import { csvText, type Table } from '../../../shared/words/csv.ts';
import { type PictureWords, standaloneSvg } from './standalone-svg.ts';

/** Dots of a PNG to one of the screen's CSS pixels: sharp in a document. */
const density = 2;

/** Hands a file to the user. */
function saveFile(name: string, contents: Blob): void {
	const address = URL.createObjectURL(contents);
	const link = document.createElement('a');
	link.href = address;
	link.download = name;
	link.click();
	// the browser has begun to read it by then
	setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

export const saveText = (name: string, type: string, text: string): void =>
	saveFile(name, new Blob([text], { type: `${type};charset=utf-8` }));

export function saveCsv(name: string, table: Table): void {
	saveText(`${name}.csv`, 'text/csv', csvText(table));
}

export function saveSvg(name: string, svg: SVGSVGElement, words?: PictureWords): void {
	saveText(`${name}.svg`, 'image/svg+xml', standaloneSvg(svg, words).text);
}

export async function savePng(name: string, svg: SVGSVGElement, words?: PictureWords): Promise<void> {
	const { text, width, height, paper } = standaloneSvg(svg, words);
	const address = URL.createObjectURL(new Blob([text], { type: 'image/svg+xml;charset=utf-8' }));
	try {
		const image = new Image();
		image.src = address;
		await image.decode();
		const canvas = document.createElement('canvas');
		canvas.width = Math.round(density * width);
		canvas.height = Math.round(density * height);
		const pen = canvas.getContext('2d');
		if (!pen) throw new Error('the browser gives no canvas');
		pen.fillStyle = paper;
		pen.fillRect(0, 0, canvas.width, canvas.height);
		pen.drawImage(image, 0, 0, canvas.width, canvas.height);
		const contents = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
		if (!contents) throw new Error('the browser could not make a PNG of it');
		saveFile(`${name}.png`, contents);
	} finally {
		URL.revokeObjectURL(address);
	}
}
