// The words of a verdict, as short as they can be told apart.

export const CALLED = { in: "IN", out: "OUT", close: "TOO CLOSE" };
export const VERDICT = { ...CALLED, close: "TOO CLOSE TO CALL" };
