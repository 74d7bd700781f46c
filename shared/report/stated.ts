/** Whether a scenario file says anything of a parameter itself; what it does not say has its default. False where the text cannot be read. */
export function isStated(scenarioText: string, id: string): boolean {
	let at: unknown;
	try {
		at = JSON.parse(scenarioText);
	} catch {
		return false;
	}
	for (const name of id.split('.')) {
		if (typeof at !== 'object' || at === null || !Object.hasOwn(at, name)) return false;
		at = (at as Record<string, unknown>)[name];
	}
	return true;
}
