/**
 * Several claims judged in an order laid down before the data were seen, each at
 * the full confidence, up to and including the first that is not shown: what
 * comes after it is not judged. The chance that any claim is shown wrongly then
 * stays at most 1 − confidence, however many there are and however they hang
 * together: to show a first wrong claim, that one claim must be shown wrongly
 * by its own test, since all before it are right and the first not shown ends it.
 *
 * Sources (from memory, pages not seen): W. Maurer, L. A. Hothorn, W. Lehmacher
 * (1995), a-priori ordered hypotheses; P. H. Westfall, A. Krishen, Journal of
 * Statistical Planning and Inference 99 (2001) 25–40.
 *
 * @param decisions what each claim's own test says, in that order
 * @param isShown whether it says that the claim is shown
 * @returns the decisions, null for a claim that is not judged
 */
export function fixedSequence<Decision>(
	decisions: readonly Decision[],
	isShown: (decision: Decision) => boolean,
): readonly (Decision | null)[] {
	const end = decisions.findIndex((decision) => !isShown(decision));
	return decisions.map((decision, place) => (end < 0 || place <= end ? decision : null));
}
