/** A formula's symbol, what follows the underscore lowered: R_h,top. */
export function Symbols({ symbol }: { symbol: string }) {
	const [main = '', ...lowered] = symbol.split('_');
	return (
		<i class="symbol">
			{main}
			{lowered.length > 0 && <sub>{lowered.join('_')}</sub>}
		</i>
	);
}
