import { ClosedLink } from "./_components/closed-link";

/** A link that never was, was taken back or has run out: which, is told to nobody. */
export default function NoSuchLink() {
  return <ClosedLink>It was taken back, or it has run out. Ask the players for a new one.</ClosedLink>;
}
