"use client";

import { type FormEvent, useState } from "react";
import type { DeskTempo } from "@/app/_data/desk/strip-of";
import type { SettingsBar } from "@/app/_data/read-piece-settings";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import { Icon } from "@/app/_ui/icon";
import { IconButton } from "@/app/_ui/icon-button";
import { SayProblem } from "@/app/_ui/say";
import type { TempoTerms } from "@/lib/edition/tempo-terms";
import { useAction } from "../../_components/use-action";
import { PlaceField } from "../../_cuts/place-field";
import { setTempoSettingsAction } from "../../actions/set-tempo-settings";
import { Section } from "./section";
import { draftTempo, readDraft, type TempoDraft } from "./tempo-draft";
import styles from "./tempo-settings.module.css";

/** The duo's own tempi over the printed ones, its allowances, and what it has timed itself. */
export function TempoSettings({
  pieceId,
  settings,
  printed,
  bars,
  mayChange,
}: {
  pieceId: string;
  settings: TempoTerms;
  printed: readonly DeskTempo[];
  bars: readonly SettingsBar[];
  mayChange: boolean;
}) {
  const [draft, setDraft] = useState(() => draftTempo(settings, printed, bars));
  const [unread, setUnread] = useState<string | null>(null);
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const read = readDraft(draft, bars);
    if ("sentence" in read) return setUnread(read.sentence);
    setUnread(null);
    const saved = await run(setTempoSettingsAction, { pieceId, settings: read.settings });
    if (saved.ok) announce("Saved. The running time is computed anew.");
  };
  return (
    <Section
      id="tempi"
      title="Tempi and time"
      about="Every running time is computed from these. A tempo of your own holds from its place to the next one. Where you have timed a section yourselves, that time counts."
    >
      <form onSubmit={submit}>
        <fieldset disabled={!mayChange} className={styles.fields}>
          <OwnTempi draft={draft} printed={printed} bars={bars} onChange={setDraft} />
          <div className={styles.allowances}>
            <TextField
              label="A fermata is held"
              hint="times its written length; 1.5 to 2 is common"
              inputMode="decimal"
              value={draft.fermataFactor}
              onChange={(event) => setDraft({ ...draft, fermataFactor: event.target.value })}
            />
            <TextField
              label="A ritardando ends at"
              hint="per cent of the tempo before it; 75 is common"
              inputMode="decimal"
              value={draft.ritardandoTo}
              onChange={(event) => setDraft({ ...draft, ritardandoTo: event.target.value })}
            />
          </div>
          <OwnTimings draft={draft} bars={bars} onChange={setDraft} />
          {(unread ?? problem) && <SayProblem>{unread ?? problem}</SayProblem>}
          <div>
            <Button type="submit" kind="settle" disabled={!mayChange || isBusy}>
              Save tempi and time
            </Button>
          </div>
        </fieldset>
      </form>
    </Section>
  );
}

interface Part {
  draft: TempoDraft;
  bars: readonly SettingsBar[];
  onChange: (draft: TempoDraft) => void;
}

const sources = { printed: "printed", assumed: "assumed", own: "your own" } as const;

function OwnTempi({ draft, printed, bars, onChange }: Part & { printed: readonly DeskTempo[] }) {
  const change = (place: number, tempo: Partial<TempoDraft["tempi"][number]>) =>
    onChange({
      ...draft,
      tempi: draft.tempi.map((old, index) => (index === place ? { ...old, ...tempo } : old)),
    });
  const remove = (place: number) =>
    onChange({ ...draft, tempi: draft.tempi.filter((_, index) => index !== place) });
  return (
    <div>
      <h3>Tempi</h3>
      <ul className={styles.rows}>
        {draft.tempi.map(({ at, beats }, place) => {
          const mark = printed.find(
            ({ barIndex, offset }) => barIndex === at.barIndex && offset === at.offset,
          );
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: a tempo's place in the list is its name while it is written
            <li key={place} className={styles.tempo}>
              {mark ? (
                <p>
                  <b>Bar {bars[at.barIndex]?.label}</b> <i>{mark.words}</i>
                  <small>
                    {mark.beats ?? "no number"}, {sources[mark.source]}
                  </small>
                </p>
              ) : (
                <PlaceField
                  label="From"
                  bars={bars}
                  place={at}
                  onChange={(to) => change(place, { at: to })}
                />
              )}
              <TextField
                label={mark ? `Your tempo at bar ${bars[at.barIndex]?.label}` : "Beats a minute"}
                isLabelHidden={mark !== undefined}
                placeholder={mark ? "your own" : ""}
                inputMode="decimal"
                value={beats}
                onChange={(event) => change(place, { beats: event.target.value })}
              />
              {mark ? (
                <span />
              ) : (
                <IconButton icon="trash" label="Take this tempo away" onClick={() => remove(place)} />
              )}
            </li>
          );
        })}
      </ul>
      <Button
        small
        onClick={() =>
          onChange({ ...draft, tempi: [...draft.tempi, { at: { barIndex: 0, offset: "0" }, beats: "" }] })
        }
      >
        <Icon name="plus" /> A tempo of your own
      </Button>
    </div>
  );
}

function OwnTimings({ draft, bars, onChange }: Part) {
  const change = (place: number, timing: Partial<TempoDraft["timings"][number]>) =>
    onChange({
      ...draft,
      timings: draft.timings.map((old, index) => (index === place ? { ...old, ...timing } : old)),
    });
  const last = bars.length - 1;
  const whole = {
    from: { barIndex: 0, offset: "0" },
    to: { barIndex: last, offset: bars[last]?.length ?? "0" },
    clock: "",
  };
  return (
    <div>
      <h3>Your own timings</h3>
      <ul className={styles.rows}>
        {draft.timings.map(({ from, to, clock }, place) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a timing's place in the list is its name while it is written
          <li key={place} className={styles.timing}>
            <PlaceField
              label="From"
              bars={bars}
              place={from}
              onChange={(at) => change(place, { from: at })}
            />
            <PlaceField
              label="To"
              bars={bars}
              place={to}
              hasEnd
              onChange={(at) => change(place, { to: at })}
            />
            <TextField
              label="Takes"
              placeholder="1:05"
              value={clock}
              onChange={(event) => change(place, { clock: event.target.value })}
            />
            <IconButton
              icon="trash"
              label="Take this timing away"
              onClick={() =>
                onChange({ ...draft, timings: draft.timings.filter((_, index) => index !== place) })
              }
            />
          </li>
        ))}
      </ul>
      <Button small onClick={() => onChange({ ...draft, timings: [...draft.timings, whole] })}>
        <Icon name="plus" /> A section you have timed
      </Button>
    </div>
  );
}
