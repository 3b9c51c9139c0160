/** Readings and entries drawn beside a stage; the log has them all. */
export const most = 200;
