"use client";

import { type ComponentProps, type ReactNode, useId } from "react";
import { classNames } from "./class-names";
import styles from "./field.module.css";

interface Around {
  label: ReactNode;
  /** Said under the control. */
  hint?: ReactNode;
  /** What is wrong and what to do; announced when it appears. */
  problem?: string | null;
  /** The label is read out but not drawn. */
  isLabelHidden?: boolean;
}

/** Label, hint and problem around a control, which is drawn with the attributes that tie it to them. */
function Labelled({
  label,
  hint,
  problem,
  isLabelHidden,
  children,
}: Around & { children: (ties: ReturnType<typeof tied>) => ReactNode }) {
  const id = useId();
  return (
    <div className={styles.around}>
      <label htmlFor={id} className={isLabelHidden ? styles.hidden : styles.label}>
        {label}
      </label>
      {children(tied(id, { hint, problem }))}
      {hint && (
        <p id={`${id}-hint`} className={styles.hint}>
          {hint}
        </p>
      )}
      <p id={`${id}-problem`} className={styles.problem} aria-live="polite">
        {problem}
      </p>
    </div>
  );
}

/** The attributes that tie a control to its hint and its problem. */
function tied(id: string, { hint, problem }: Pick<Around, "hint" | "problem">) {
  return {
    id,
    "aria-invalid": problem ? true : undefined,
    "aria-describedby": classNames(hint ? `${id}-hint` : null, problem ? `${id}-problem` : null) || undefined,
  };
}

export function TextField({
  label,
  hint,
  problem,
  isLabelHidden,
  className,
  ...rest
}: Around & ComponentProps<"input">) {
  return (
    <Labelled {...{ label, hint, problem, isLabelHidden }}>
      {(ties) => <input {...rest} {...ties} className={classNames(styles.control, className)} />}
    </Labelled>
  );
}

export function TextArea({
  label,
  hint,
  problem,
  isLabelHidden,
  className,
  ...rest
}: Around & ComponentProps<"textarea">) {
  return (
    <Labelled {...{ label, hint, problem, isLabelHidden }}>
      {(ties) => (
        <textarea
          rows={2}
          {...rest}
          {...ties}
          className={classNames(styles.control, styles.area, className)}
        />
      )}
    </Labelled>
  );
}

export function SelectField({
  label,
  hint,
  problem,
  isLabelHidden,
  className,
  children,
  ...rest
}: Around & ComponentProps<"select">) {
  return (
    <Labelled {...{ label, hint, problem, isLabelHidden }}>
      {(ties) => (
        <select {...rest} {...ties} className={classNames(styles.control, styles.select, className)}>
          {children}
        </select>
      )}
    </Labelled>
  );
}
