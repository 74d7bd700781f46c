/**
 * Zero as the first value of a field that will hold fractions and is read in a
 * hot loop. A plain 0 is kept as a small integer, and the first fraction then
 * changes the object's shape: code already compiled for it is thrown away.
 * Minus zero is a real number from the start.
 */
export const realZero = -0;
