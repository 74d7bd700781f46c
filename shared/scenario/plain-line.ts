/** What no name may hold: control characters, line ends among them, and signs that turn the direction of writing around. */
export const unprintable = '\\u0000-\\u001f\\u007f-\\u009f\\u2028\\u2029\\u202a-\\u202e\\u2066-\\u2069';

const controls = new RegExp(`[${unprintable}]`, 'g');

/** Whether a text is one line that is written as it stands. */
export const isPlainLine = (text: string): boolean => withoutControls(text) === text;

/** Why one is not. */
export const notPlainLine = 'must be one line without control characters';

/** A text with the replacement character in place of what no terminal or page should be given. */
export const withoutControls = (text: string): string => text.replaceAll(controls, '\ufffd');
