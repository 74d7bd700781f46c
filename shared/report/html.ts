/** Text that is HTML already; everything else is escaped on its way into the page. */
export interface Markup {
	readonly markup: string;
}

export type Content = Markup | string | number | null | undefined | false | readonly Content[];

/** HTML from a template: `html\`<p>${text}</p>\``. Texts put in are escaped, lists put together, nothing is left out silently but null, undefined and false. */
export function html(strings: TemplateStringsArray, ...values: readonly Content[]): Markup {
	return { markup: strings.reduce((sum, text, i) => sum + markupOf(values[i - 1]) + text) };
}

/** HTML that is trusted as it stands: drawings made by ourselves. */
export const raw = (markup: string): Markup => ({ markup });

/** HTML of some content. */
export function markupOf(content: Content): string {
	if (content === null || content === undefined || content === false) return '';
	if (typeof content === 'number') return String(content);
	if (typeof content === 'string') return content.replace(/[&<>"']/g, (sign) => escapes[sign] as string);
	return 'markup' in content ? content.markup : content.map(markupOf).join('');
}

const escapes: Readonly<Record<string, string>> = {
	'&': '&amp;',
	'<': '&lt;',
	'>': '&gt;',
	'"': '&quot;',
	"'": '&#39;',
};
