import type { Node } from './compile';
import { testMark, type MarkFact } from './markFacts';
import type { Cell, Place } from './place';
import { testCondition } from './testCondition';
import { NO, YES } from './truth';

/**
 * The first part of a condition that did not hold, as one of `MISSING_KEYS`; with `unsure.` before it
 * where a person must settle it. Of alternatives, the one that came nearest.
 */
export function missingPart(node: Node, at: Place, cell: Cell): string {
	const { op, parts } = node;
	if (op === 'all') {
		const lacking =
			parts.find((part) => testCondition(part, at, cell) === NO) ??
			parts.find((part) => testCondition(part, at, cell) !== YES);
		return lacking ? missingPart(lacking, at, cell) : op;
	}
	if (op === 'any') {
		const nearest =
			parts.find((part) => testCondition(part, at, cell) !== NO) ?? parts.find((part) => !isPlaceMissing(part, cell));
		return missingPart(nearest ?? parts[0] ?? node, at, cell);
	}
	const key = keyOf(node, cell);
	return testCondition(node, at, cell) === NO ? key : `unsure.${key}`;
}

const isPlaceMissing = (node: Node, cell: Cell): boolean =>
	node.op === 'mark' && keyOfMark(node, cell?.marks ?? []) === 'mark.place';

function keyOf(node: Node, cell: Cell): string {
	const { op, name, words, from, below } = node;
	switch (op) {
		case 'mark':
			return keyOfMark(node, cell?.marks ?? []);
		case 'target':
			return words.length > 0 && !words.includes(cell?.level ?? '') ? 'target.level' : keyOfFill(from, below);
		case 'technique':
		case 'ranked':
		case 'ballot':
			return `${op}.${name}`;
		case 'votes':
			return `votes.${name}`;
		default:
			return op;
	}
}

const keyOfFill = (from: number, below: number): string =>
	from > 0 || below < Infinity ? 'target.fill' : 'target.level';

function keyOfMark({ mark }: Node, marks: readonly MarkFact[]): string {
	const here = marks.filter(({ placeBit }) => placeBit & mark.places);
	if (here.length === 0) return 'mark.place';
	const kind = here.filter((one) => testMark({ ...mark, says: undefined, touches: undefined }, one) !== NO);
	if (kind.length === 0) return 'mark.kind';
	return kind.some((one) => testMark({ ...mark, says: undefined }, one) !== NO) ? 'mark.says' : 'mark.touches';
}
