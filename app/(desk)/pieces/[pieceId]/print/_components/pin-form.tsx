"use client";

import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import type { PagesPlan } from "@/lib/engrave/pages/pages-plan";
import type { Pinning } from "./print-pages";
import styles from "./print-pages.module.css";

/** Lets a page begin at a bar that is named by its printed number. */
export function PinForm({ plan, pinning }: { plan: PagesPlan; pinning: Pinning }) {
  const [label, setLabel] = useState("");
  const [problem, setProblem] = useState<string | null>(null);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const wanted = label.trim();
    const place = plan.bars.findIndex((bar) => bar.label === wanted);
    const bar = plan.bars[place];
    if (!bar) setProblem(`No bar ${wanted} is printed in this part.`);
    else if (place === 0) setProblem("The first bar begins a page anyway.");
    else {
      setProblem(null);
      setLabel("");
      pinning.pin(bar.sourceIndex);
    }
  };
  return (
    <form className={styles.pin} onSubmit={submit}>
      <TextField
        label="Begin a page at bar"
        inputMode="numeric"
        size={5}
        value={label}
        problem={problem}
        onChange={(event) => setLabel(event.target.value)}
      />
      <Button type="submit" small disabled={pinning.isBusy || label.trim() === ""}>
        Pin a break here
      </Button>
    </form>
  );
}
