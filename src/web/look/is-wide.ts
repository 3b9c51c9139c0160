/** A desk has room for two panes; below it everything stands in one column under a thumb. */
export const isWide = (): boolean => matchMedia("(min-width: 900px)").matches;
