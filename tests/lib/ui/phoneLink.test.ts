import { describe, expect, test } from 'vitest';
import { county } from '$core/election/demo';
import { phoneLink } from '$lib/ui/phoneLink';

describe('phoneLink', () => {
	test.each([
		['555-0142', 'tel:5550142'],
		['(555) 555-0142', 'tel:5555550142'],
		['+1 555.555.0142', 'tel:+15555550142'],
		['1–555–555–0142', 'tel:15555550142'],
		['555-0142 ext. 7', 'tel:5550142;ext=7'],
		['555-0142, x12', 'tel:5550142;ext=12'],
		[' 711 ', 'tel:711']
	])('calls %s', (phone, link) => {
		expect(phoneLink(phone)).toBe(link);
	});

	test.each(['555-VOTE', '555-0142 or 555-0143', 'ask at the desk', 'javascript:alert(1)', '12', '-', ''])(
		'makes no link of “%s”, which is not one number',
		(phone) => {
			expect(phoneLink(phone)).toBeUndefined();
		}
	);

	test('calls the office of the demo county', () => {
		expect(phoneLink(county.office.phone)).toMatch(/^tel:\d+$/);
	});
});
