/** Confidence level of every interval. */
export const confidenceLevel = 0.95;
