/** For the beginning of a sentence: "half-bus" → "Half-bus". */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
