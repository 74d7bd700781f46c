/** How the figures of variants are worked out, in words. */
export const variantMethods: Readonly<Record<string, string>> = {
	'passing share':
		"exact one-sided Clopper–Pearson limits with the requirement's confidence each; drives that could not be simulated count against either decision",
	"a drive's error": '95 % quantile of its |angle errors| over all starts; order-statistic limits over drives',
	'crossings counted':
		'early, late and missed together; ratio of events to sectors, drives as clusters: gamma limits of so many clusters, the upper one the nearer to a Student limit corrected for skewness the larger they are; without an event, exact bound on the share of drives affected',
	'crossings computed':
		'mean over drives of the exact probabilities given Gaussian noise, independent from reading to reading',
};
