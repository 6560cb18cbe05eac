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

function Labelled({
  id,
  label,
  hint,
  problem,
  isLabelHidden,
  children,
}: Around & { id: string; children: ReactNode }) {
  return (
    <div className={styles.around}>
      <label htmlFor={id} className={isLabelHidden ? styles.hidden : styles.label}>
        {label}
      </label>
      {children}
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
function tied(id: string, { hint, problem }: Around) {
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
  const id = useId();
  const around = { label, hint, problem, isLabelHidden };
  return (
    <Labelled id={id} {...around}>
      <input {...rest} {...tied(id, around)} className={classNames(styles.control, className)} />
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
  const id = useId();
  const around = { label, hint, problem, isLabelHidden };
  return (
    <Labelled id={id} {...around}>
      <textarea
        rows={2}
        {...rest}
        {...tied(id, around)}
        className={classNames(styles.control, styles.area, className)}
      />
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
  const id = useId();
  const around = { label, hint, problem, isLabelHidden };
  return (
    <Labelled id={id} {...around}>
      <select
        {...rest}
        {...tied(id, around)}
        className={classNames(styles.control, styles.select, className)}
      >
        {children}
      </select>
    </Labelled>
  );
}
