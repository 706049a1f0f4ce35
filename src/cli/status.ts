/** Exit statuses. */
export const done = 0;
/** The content has errors, or the machine would not let it be published. */
export const failed = 1;
/** The command's own arguments are wrong. */
export const usageError = 2;
/** Stopped by a signal, as shells number it. */
export const calledOff = 130;
