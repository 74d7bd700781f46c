import { keepUnits } from '../../../shared/words/keep-units.ts';
import type { PageModel } from '../model/page-model.ts';
import { isSimulating } from '../model/run-status.ts';
import { inputProblem } from '../model/study-inputs.ts';
import { Form } from '../parts/form.tsx';
import { TextField } from '../parts/text-field.tsx';
import { Progress } from './progress.tsx';

/** What is asked: scenario, units, seed; run and cancel. */
export function Setup({ model }: { model: PageModel }) {
	const running = isSimulating(model.state.value);
	const unitsProblem = inputProblem(model.units.value);
	const seedProblem = inputProblem(model.seed.value);
	return (
		<Form class="setup" label="Study" onSubmit={model.run}>
			<div class="field">
				<label for="scenario">Scenario</label>
				<select
					id="scenario"
					aria-describedby="lesson"
					onChange={(event) => model.chooseNth(event.currentTarget.selectedIndex)}
				>
					{model.sources.value.map(({ source, title }, place) => (
						<option key={place} selected={source === model.source.value}>
							{title}
						</option>
					))}
				</select>
				<p id="lesson" class="lesson">
					{keepUnits(model.scenario.value?.lesson ?? '')}
				</p>
				<p class="open controls">
					<label class="file">
						<input
							type="file"
							accept=".json,application/json"
							onChange={(event) => {
								const [file] = event.currentTarget.files ?? [];
								event.currentTarget.value = '';
								if (file) void model.openFile(file);
							}}
						/>
						<span>Open a scenario file</span>
					</label>
					<span class="drop-hint"> or drop one anywhere</span>
				</p>
				{model.fileProblem.value && (
					<p class="problem" role="alert">
						{model.fileProblem.value}
					</p>
				)}
			</div>
			<div class="pair">
				<TextField
					id="units"
					label="Drives to build"
					value={model.unitsTyped.value}
					problem={unitsProblem}
					inputMode="numeric"
					onInput={model.setUnits}
				/>
				<TextField
					id="seed"
					label="Seed"
					value={model.seedTyped.value}
					problem={seedProblem}
					inputMode="text"
					onInput={model.setSeed}
				/>
			</div>
			<p class="actions controls">
				<button type="submit" class="primary" disabled={!model.request.value}>
					Run
				</button>
				<button type="button" disabled={!running} onClick={model.cancel}>
					Cancel
				</button>
			</p>
			<Progress model={model} />
		</Form>
	);
}
