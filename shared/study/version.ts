/** Version of this program; package.json says the same (tested). */
export const version = '0.1.0';
