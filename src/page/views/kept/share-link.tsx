import { count } from '../../../../shared/words/figures.ts';
import { fileName } from '../../model/file-name.ts';
import type { Kept } from '../../model/kept/kept.ts';
import type { PageModel } from '../../model/page-model.ts';

/** The inputs as a link and as a file. */
export function ShareLink({ kept, model }: { kept: Kept; model: PageModel }) {
	const address = kept.link.value && new URL(kept.link.value, location.href).href;
	const copy = async (): Promise<void> => {
		try {
			await navigator.clipboard.writeText(address);
			kept.say('The link is copied.');
		} catch {
			const field = document.getElementById('link') as HTMLInputElement | null;
			field?.select();
			kept.say('The browser does not let the page copy: the link is selected, to be copied by hand.');
		}
	};
	const save = async (): Promise<void> => {
		const { saveText } = await import('../../parts/save-files.ts');
		saveText(`${fileName(model)}.json`, 'application/json', model.inputs.text.value);
		kept.say('The scenario file is saved.');
	};
	return (
		<section class="share" aria-labelledby="share-title">
			<h3 id="share-title">Share these inputs</h3>
			<div class="field">
				<label for="link">Link</label>
				<input
					id="link"
					type="text"
					readOnly
					value={address}
					aria-describedby="link-about"
					onFocus={(event) => event.currentTarget.select()}
				/>
			</div>
			<p class="buttons">
				<button type="button" disabled={address === ''} onClick={() => void copy()}>
					Copy the link
				</button>
				<button type="button" onClick={() => void save()}>
					Save the scenario file
				</button>
			</p>
			<p id="link-about" class="aside">
				It holds the scenario as it stands, the number of drives and the seed: whoever opens it gets the same figures.
				The scenario travels in the link itself, after the #, which browsers send to no server. {count(address.length)}{' '}
				characters.
			</p>
		</section>
	);
}
