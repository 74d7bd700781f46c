/** What print has and plain ASCII has not, as it is written there. */
const plain: Readonly<Record<string, string>> = {
	'−': '-',
	'–': '-',
	'—': '-',
	'×': 'x',
	'·': '*',
	'≤': '<=',
	'≥': '>=',
	'±': '+/-',
	'°': ' deg',
	µ: 'u',
	Ω: 'Ohm',
	'…': '...',
	'“': '"',
	'”': '"',
	'’': "'",
};

const raised = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** A text on one line in ASCII alone, for logs that show nothing else: "10⁻⁴" is 10^-4, an unknown sign a question mark. */
export function plainText(text: string): string {
	return text
		.replaceAll(/[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+/gu, (signs) =>
			[...signs].reduce((power, sign) => power + (sign === '⁻' ? '-' : raised.indexOf(sign)), '^'),
		)
		.replaceAll(/\s/g, ' ')
		.replaceAll(/[^\x20-\x7e]/gu, (sign) => plain[sign] ?? '?');
}
