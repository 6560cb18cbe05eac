"use client";

import { type FormEvent, useState } from "react";
import type { PieceSettings } from "@/app/_data/read-piece-settings";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { SelectField } from "@/app/_ui/field";
import { WithFlats } from "@/app/_ui/music-sign";
import { SayProblem } from "@/app/_ui/say";
import type { PartRole } from "@/lib/score/part";
import { useAction } from "../../_components/use-action";
import { setPartRolesAction } from "../../actions/set-part-roles";
import styles from "./part-settings.module.css";
import { Section } from "./section";

const roles: readonly { role: PartRole; label: string }[] = [
  { role: "solo", label: "the solo" },
  { role: "reduction", label: "the piano reduction" },
  { role: "orchestra", label: "the orchestra" },
  { role: "other", label: "not used" },
];

/** What each part of the file is for. */
export function PartSettings({
  pieceId,
  parts,
  fileName,
  mayChange,
}: {
  pieceId: string;
  parts: PieceSettings["parts"];
  fileName: string;
  mayChange: boolean;
}) {
  const [chosen, setChosen] = useState<Readonly<Record<string, PartRole>>>(
    Object.fromEntries(parts.map(({ id, role }) => [id, role])),
  );
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if ((await run(setPartRolesAction, { pieceId, partRoles: chosen })).ok) announce("Parts saved.");
  };
  return (
    <Section
      id="parts"
      title="Parts"
      about={
        <>
          What each part of <b>{fileName}</b> is for. The tuttis are found where the solo rests.
        </>
      }
    >
      <form onSubmit={submit} className={styles.form}>
        <ul>
          {parts.map(({ id, name, staffCount, noteCount }) => (
            <li key={id}>
              <p>
                <b>
                  <WithFlats text={name || `Part ${id}`} />
                </b>
                <small>
                  {staffCount === 1 ? "1 staff" : `${staffCount} staves`}, {noteCount.toLocaleString("en-GB")}{" "}
                  notes
                </small>
              </p>
              <SelectField
                label={`What ${name || id} is`}
                isLabelHidden
                value={chosen[id]}
                disabled={!mayChange}
                onChange={(event) => setChosen({ ...chosen, [id]: event.target.value as PartRole })}
              >
                {roles.map(({ role, label }) => (
                  <option key={role} value={role}>
                    {label}
                  </option>
                ))}
              </SelectField>
            </li>
          ))}
        </ul>
        {problem && <SayProblem>{problem}</SayProblem>}
        <div>
          <Button type="submit" disabled={!mayChange || isBusy}>
            Save parts
          </Button>
        </div>
      </form>
    </Section>
  );
}
