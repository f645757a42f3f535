// What each page's data holds is inferred from its `load`.
export {};
