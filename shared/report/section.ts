import type { FurtherName } from './ask.ts';
import { type Content, html, type Markup } from './html.ts';
import type { Report } from './report.ts';

/** One part of a report: its heading, and whether what it is about was computed. */
export interface Section {
	/** Also its address in the page. */
	readonly id: string;
	readonly title: string;
	readonly isComputed: boolean;
	readonly content: Content;
}

export const section = (id: string, title: string, content: Content): Section => ({
	id,
	title,
	isComputed: true,
	content,
});

/** A part that was not asked for, and how to get it, or that an interruption cut off: it is said, not left out. */
export const notComputed = (
	{ missing }: Pick<Report, 'missing'>,
	id: FurtherName,
	title: string,
	reason: Content,
): Section => ({
	id,
	title,
	isComputed: false,
	content: missing.includes(id)
		? html`<p class="not-computed"><strong>Interrupted before it was computed.</strong> ${reason} It was asked for: run the study again to have it.</p>`
		: html`<p class="not-computed"><strong>Not computed for this report.</strong> ${reason} Ask for it with <code>--report-with ${id}</code>, or by its box on the page.</p>`,
});

export const drawSection = ({ id, title, content, isComputed }: Section): Markup =>
	html`
<section id="${id}" aria-labelledby="${id}-title" class="${isComputed ? '' : 'absent'}">
<h2 id="${id}-title">${title}</h2>
${content}
</section>`;
