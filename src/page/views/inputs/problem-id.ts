/** Id of the element that says what is wrong in a field, for `aria-describedby`. */
export const problemId = (fieldKey: string): string => `problem-${fieldKey.replace(/[^\w-]+/g, '-')}`;
