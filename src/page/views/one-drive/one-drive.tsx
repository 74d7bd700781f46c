import '../../style/one-drive.css';
import { browserHost } from '../../../host/browser-host.ts';
import { driveLab } from '../../../host/drive-lab.ts';
import { createPool } from '../../../host/pool.ts';
import { createOneDrive, type OneDrive } from '../../model/one-drive/one-drive.ts';
import type { PageModel } from '../../model/page-model.ts';
import { Cautions } from '../cautions.tsx';
import { Reservations } from '../reservations.tsx';
import { BoardEntry } from './board-entry.tsx';
import { Diagnosis } from './diagnosis.tsx';
import { DrivePicker } from './drive-picker.tsx';
import { Parts } from './parts.tsx';
import { Sectors } from './sectors.tsx';
import { Waveforms } from './waveforms.tsx';

/** Why a drive failed, or how it did: one drive simulated again, from its seed and index. */
export function OneDriveView({ model }: { model: PageModel }) {
	const drive = model.part('one-drive', (): OneDrive => {
		const { shown, request, route, whichChoice } = model;
		const { view, details, refine } = route;
		// a worker of its own, so that single drives need not wait for a study
		const lab = driveLab(createPool(browserHost(), 1));
		const { baseline } = model.against;
		const { pointIndex } = whichChoice;
		return createOneDrive({ shown, request, baseline, pointIndex, view, details, refine }, lab);
	});
	return (
		<>
			<section class="overall" aria-labelledby="question">
				<h2 id="question">{drive.question.value}</h2>
				<Diagnosis drive={drive} />
				<Reservations words={drive.reservations.value} />
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
