/** Confidence level of every interval; limits of a verdict have the requirement's. */
export const confidenceLevel = 0.95;
