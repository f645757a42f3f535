import type { TargetSide } from '../election/election';
import { PX_PER_MM } from '../image';
import type { Mark, MarkKind } from './mark';
import { holds, type Nearness, type Whereabouts } from './whereabouts';

/** A mark lies in its target when this share of its ink does, or when its middle does. */
const INSIDE_SHARE = 0.55;

/** Ink inside a target of at least so many pixels touches it. */
const TOUCH_PX = 5;

/** A mark farther from a row than this belongs to no choice, in millimetres. */
const BESIDE_MM = 9;

type Placed = Pick<Mark, 'place'> & Partial<Pick<Mark, 'contest' | 'choice' | 'rank' | 'alsoTouches'>>;

/** Where a mark of a kind is, as the words of the readings have it, and whose it is. */
export function placeOf(kind: MarkKind, where: Whereabouts, side: TargetSide): Placed {
	const { nearest, contest, inHeading } = where;
	const place = nearest ? placeAt(kind, nearest, where, side) : undefined;
	if (!nearest || !place) {
		const owner = contest === undefined ? {} : { contest };
		return { place: inHeading ? 'heading' : 'margin', ...owner };
	}
	const { choice } = nearest;
	const also = [
		...new Set(
			where.others
				.filter((o) => o.choice.contest === choice.contest && o.choice.choice !== choice.choice)
				.map((o) => o.choice.choice)
		)
	];
	return {
		place,
		contest: choice.contest,
		choice: choice.choice,
		...(choice.rank !== undefined && (place === 'in-target' || place === 'touching-target')
			? { rank: choice.rank }
			: {}),
		...(also.length > 0 ? { alsoTouches: also } : {})
	};
}

function placeAt(
	kind: MarkKind,
	nearest: Nearness,
	{ box, middleX, middleY, inkCount, inHeading }: Whereabouts,
	side: TargetSide
): Mark['place'] | undefined {
	const { target, name, inTarget, onTarget, inName, inWriteIn, holdsName, holdsTarget, acrossTarget } = nearest;
	if (kind === 'fold' && inTarget < TOUCH_PX) return undefined;
	if (kind === 'underline' || kind === 'strike') return 'on-name';
	if (kind === 'ring') {
		if (holdsName) return 'on-name';
		if (holdsTarget && !holds(target, box.left, box.top))
			return onTarget >= TOUCH_PX ? 'touching-target' : 'beside-target';
	}
	if (inTarget > 0 && (inTarget >= INSIDE_SHARE * inkCount || (holds(target, middleX, middleY) && acrossTarget > 0.5)))
		return 'in-target';
	const isWriting = inWriteIn > 0.4 * inkCount;
	if (inTarget >= TOUCH_PX && !isWriting && inTarget >= 0.3 * inName) return 'touching-target';
	if (isWriting) return 'write-in';
	if (inName >= 0.15 * inkCount || holds(name, middleX, middleY)) return 'on-name';
	if (onTarget >= TOUCH_PX) return 'touching-target';
	if (inHeading) return 'heading';
	const after = side === 'left' ? middleX - name.right : name.left - middleX;
	const row = { top: Math.min(target.top, name.top), bottom: Math.max(target.bottom, name.bottom) };
	const off = Math.max(row.top - middleY, middleY - row.bottom) / PX_PER_MM;
	if (off > 3) return undefined;
	if (after > 0) return after / PX_PER_MM > 60 ? undefined : 'after-name';
	const beside = Math.max(target.left - middleX, middleX - target.right) / PX_PER_MM;
	if (inName > 0 && beside > 3) return 'on-name';
	return beside <= BESIDE_MM
		? 'beside-target'
		: holds(name, middleX, (name.top + name.bottom) / 2)
			? 'on-name'
			: undefined;
}
