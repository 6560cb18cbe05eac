import type { ComponentProps } from "react";
import { classNames } from "./class-names";
import { Icon, type IconName } from "./icon";
import styles from "./icon-button.module.css";

/** A button with only a sign on it; `label` says what it does, on hover and to those who hear the page. */
export function IconButton({
  icon,
  label,
  className,
  ...rest
}: { icon: IconName; label: string } & Omit<ComponentProps<"button">, "children">) {
  return (
    <button
      type="button"
      aria-label={label}
      title={label}
      {...rest}
      className={classNames(styles.button, className)}
    >
      <Icon name={icon} />
    </button>
  );
}
