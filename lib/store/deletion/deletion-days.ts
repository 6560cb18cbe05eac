/** A deleted piece can be brought back for so many days; `purge_deleted_piece` in the database knows the same number. */
export const deletionDays = 30;

const dayMs = 24 * 60 * 60 * 1000;

/** What was deleted before this moment is gone for good. */
export function lastReturn(now: Date): Date {
  return new Date(now.getTime() - deletionDays * dayMs);
}

/** Whole days left to bring a piece back, at least one while it can be. */
export function daysLeft(deletedAt: Date, now: Date): number {
  return Math.max(1, Math.ceil((deletedAt.getTime() - lastReturn(now).getTime()) / dayMs));
}
