import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { choiceWords } from '../words/names.ts';
import { html, type Markup } from './html.ts';

/** The mark that tells a choice in pictures and tables, without colour too: a disc and a whole line, a diamond and dashes. */
const choiceMark = (choice: ChoiceName): Markup =>
	choice === 'halfBus'
		? html`<svg class="mark halfBus" viewBox="0 0 22 10" width="22" height="10" aria-hidden="true"><path d="M0 5h22"/><circle cx="11" cy="5" r="3.6"/></svg>`
		: html`<svg class="mark virtualNeutral" viewBox="0 0 22 10" width="22" height="10" aria-hidden="true"><path d="M0 5h22" stroke-dasharray="5 3"/><path class="solid" d="M11 .6 15.4 5 11 9.4 6.6 5z"/></svg>`;

export const markedChoice = (choice: ChoiceName): Markup => html`${choiceMark(choice)}${choiceWords[choice]}`;

/** The heads of two columns, choice beside choice. */
export const choiceHeads = choiceNames.map(markedChoice);
