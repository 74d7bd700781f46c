import type { ChoiceName, Drive } from '../drive/drive.ts';
import type { PowerStage } from '../drive/power-stage/power-stage.ts';
import type { Ringing } from '../drive/ringing.ts';
import { NetworkNode } from '../drive/sensing/network-node.ts';
import { thresholds } from '../drive/sensing/sensing-choice.ts';
import { sensedPhase } from './segment-state.ts';

/** The open phase's sense node and one choice's threshold, read along a trajectory in the order of time. */
export class SenseNodes {
	/** V, without and with ringing. */
	sense = 0;
	threshold = 0;
	ringingSense = 0;
	ringingThreshold = 0;

	private readonly nodes = [new NetworkNode(0), new NetworkNode(1), new NetworkNode(2)];
	private readonly level;
	private readonly drive: Drive;
	private isReady = false;

	constructor(drive: Drive, choice: ChoiceName) {
		this.drive = drive;
		this.level = thresholds[choice]();
	}

	/** Reads both `s` seconds into the stage's segment in hand. */
	read(stage: PowerStage, ringing: Ringing, s: number): void {
		const { history, circuit } = stage;
		if (!this.isReady) this.level.reset(this.drive, circuit);
		this.isReady = true;
		const node = this.nodes[sensedPhase(stage)] as NetworkNode;
		history.point.goTo(circuit, history.count, s);
		node.read(history, circuit, ringing);
		this.level.read(history, circuit, ringing);
		this.sense = node.value;
		this.threshold = this.level.value;
		this.ringingSense = node.value + node.ringing;
		this.ringingThreshold = this.level.value + this.level.ringing;
	}
}
