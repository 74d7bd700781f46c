import { expect, test } from 'vitest';
import { html, markupOf, raw } from '../../shared/report/html.ts';

test('texts are escaped in elements and attributes, markup is not, lists are put together', () => {
	const words = `<b class="x">&'`;
	expect(markupOf(html`<p title="${words}">${words}</p>`)).toBe(
		'<p title="&lt;b class=&quot;x&quot;&gt;&amp;&#39;">&lt;b class=&quot;x&quot;&gt;&amp;&#39;</p>',
	);
	expect(markupOf(html`${raw('<i>')}${[html`<b>${1}</b>`, ' & ', ['c', null, false, undefined]]}`)).toBe(
		'<i><b>1</b> &amp; c',
	);
});
