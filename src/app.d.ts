declare global {
	namespace App {
		interface PageData {
			lang: import('$lib/i18n/i18n').Lang;
			i18n: import('i18next').i18n;
		}
	}
}
export {};
