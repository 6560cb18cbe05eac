/** "2026-05-01 10:00 UTC". @param at ISO 8601, in UTC. */
export const sayMoment = (at: string): string => `${at.slice(0, 10)} ${at.slice(11, 16)} UTC`;
