import paneBar from "./pane-bar.module.css";

/** At the foot of a narrow screen: which part of it has the room. */
export function ScreenParts<Part extends string>({
  parts,
  shown,
  onPick,
}: {
  parts: readonly { readonly value: Part; readonly label: string }[];
  shown: Part;
  onPick: (part: Part) => void;
}) {
  return (
    <nav className={paneBar.bar} aria-label="Parts of this screen">
      {parts.map(({ value, label }) => (
        <button
          key={value}
          type="button"
          aria-current={value === shown || undefined}
          onClick={() => onPick(value)}
        >
          <span>{label}</span>
        </button>
      ))}
    </nav>
  );
}
