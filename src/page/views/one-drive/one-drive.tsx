import '../../style/one-drive.css';
import { driveLab } from '../../drive-lab.ts';
import { createOneDrive, type OneDrive } from '../../model/one-drive/one-drive.ts';
import type { PageModel } from '../../model/page-model.ts';
import { Cautions } from '../cautions.tsx';
import { BoardEntry } from './board-entry.tsx';
import { Diagnosis } from './diagnosis.tsx';
import { DrivePicker } from './drive-picker.tsx';
import { Parts } from './parts.tsx';
import { Sectors } from './sectors.tsx';
import { Waveforms } from './waveforms.tsx';

/** Why did this drive fail: one drive simulated again, from its seed and index. */
export function OneDriveView({ model }: { model: PageModel }) {
	const drive = model.part('one-drive', (): OneDrive => {
		const { shown, route, whichChoice } = model;
		const { view, details, refine } = route;
		return createOneDrive({ shown, pointIndex: whichChoice.pointIndex, view, details, refine }, driveLab());
	});
	return (
		<>
			<section class="overall" aria-labelledby="question">
				<h2 id="question">Why did this drive fail?</h2>
				<Diagnosis drive={drive} />
				<Cautions />
			</section>
			<DrivePicker drive={drive} />
			{drive.request.value && (
				<>
					<Waveforms drive={drive} />
					<div class="beside">
						<Sectors drive={drive} />
						<Parts drive={drive} />
					</div>
					<BoardEntry drive={drive} />
				</>
			)}
		</>
	);
}
