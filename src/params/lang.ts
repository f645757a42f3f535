import type { ParamMatcher } from '@sveltejs/kit';
import { isLang, type Lang } from '$lib/i18n/i18n';

export const match = ((param: string): param is Lang => isLang(param)) satisfies ParamMatcher;
