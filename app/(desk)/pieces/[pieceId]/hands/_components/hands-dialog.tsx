"use client";

import { useState } from "react";
import type { HandsDesk } from "@/app/_data/desk/hands-desk";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { capital } from "@/app/_ui/capital";
import { Dialog } from "@/app/_ui/dialog";
import { SelectField } from "@/app/_ui/field";
import { SayProblem } from "@/app/_ui/say";
import { handPresets } from "@/lib/hands/hand-presets";
import { type HandName, type HandsProfile, type Reach, usualHands } from "@/lib/hands/hands-profile";
import { setHandsAction } from "../../../../account/actions/set-hands";
import { useAction } from "../../_components/use-action";
import styles from "./hands-dialog.module.css";
import { MeasureMe } from "./measure-me";
import { sayFigure, shortInterval } from "./passage-words";
import { leapWords, rates, reachesToChoose, sayLeaps, withRate, withReach } from "./read-profile";
import { Stepper } from "./stepper";

type Mine = NonNullable<HandsDesk["mine"]>;

/** Asks what lies under the pianist's hands: by intervals, from published hands, or by playing. */
export function HandsDialog({ isOpen, mine, onClose }: { isOpen: boolean; mine: Mine; onClose: () => void }) {
  return (
    <Dialog title="Your hands" isOpen={isOpen} onClose={onClose}>
      <HandsForm mine={mine} onClose={onClose} />
    </Dialog>
  );
}

function HandsForm({ mine, onClose }: { mine: Mine; onClose: () => void }) {
  const [profile, setProfile] = useState(mine.profile);
  const [source, setSource] = useState<string | null>(null);
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const keep = async (given: HandsProfile | null) => {
    if (!(await run(setHandsAction, { profile: given })).ok) return;
    announce("Your hands are kept. The piece is judged by them.");
    onClose();
  };
  const setReach = (hand: HandName, reach: Reach) => setProfile({ ...profile, [hand]: reach });
  return (
    <div className={styles.form}>
      <p>
        What lies under your hands, by your own word. Every figure of this screen follows from it, and nobody
        but you sees it.
      </p>
      <section aria-label="Start from published hands">
        <h3>Start from</h3>
        <div className={styles.presets}>
          {handPresets.map((preset) => (
            <Button
              key={capital(preset.name)}
              small
              onClick={() => {
                setProfile({ ...profile, left: preset.hands.left, right: preset.hands.right });
                setSource(preset.source);
              }}
            >
              {capital(preset.name)}
            </Button>
          ))}
        </div>
        <p className={styles.source} role="status">
          {source ?? "Spans by published statistics. They set the reach alone; change what is not yours."}
        </p>
      </section>
      <section aria-label="Reach">
        <h3>Reach: chords that you strike and hold</h3>
        {(["left", "right"] as const).map((hand) => (
          <div key={hand} className={styles.reach}>
            <ReachField
              label={`${hand === "left" ? "Left" : "Right"} hand, with ease`}
              value={profile[hand].comfortable}
              onChange={(comfortable) => setReach(hand, withReach(profile[hand], { comfortable }))}
            />
            <ReachField
              label="When it must be"
              value={profile[hand].possible}
              onChange={(possible) => setReach(hand, withReach(profile[hand], { possible }))}
            />
          </div>
        ))}
      </section>
      <section aria-label="Speed" className={styles.rates}>
        <h3>How often a second, for some bars</h3>
        {rates.map(({ name, label, step, least, most }) => (
          <Stepper
            key={name}
            {...{ label, step, least, most }}
            value={profile[name]}
            says={`${sayFigure(profile[name])} a second`}
            onChange={(value) => setProfile(withRate(profile, name, value))}
          />
        ))}
        <SelectField
          label="Leaps"
          value={sayLeaps(profile.leaps)}
          onChange={(event) =>
            setProfile({
              ...profile,
              leaps: leapWords.find(({ words }) => words === event.target.value)?.factor ?? profile.leaps,
            })
          }
        >
          {leapWords.map(({ words }) => (
            <option key={words}>{words}</option>
          ))}
        </SelectField>
      </section>
      <MeasureMe
        onReach={setReach}
        onRate={(name, perSecond) => setProfile(withRate(profile, name, perSecond))}
      />
      {problem && <SayProblem>{problem}</SayProblem>}
      <div className={styles.buttons}>
        <Button kind="settle" disabled={isBusy} onClick={() => keep(profile)}>
          Keep these hands
        </Button>
        {mine.givenAt !== null && (
          <Button disabled={isBusy} onClick={() => keep(null)}>
            Back to usual hands
          </Button>
        )}
        <Button kind="bare" onClick={onClose}>
          Leave it
        </Button>
        {JSON.stringify(profile) !== JSON.stringify(usualHands) && mine.givenAt === null && (
          <span className={styles.hint}>Nothing is kept yet.</span>
        )}
      </div>
    </div>
  );
}

function ReachField({
  label,
  value,
  onChange,
}: {
  label: string;
  value: number;
  onChange: (semitones: number) => void;
}) {
  return (
    <SelectField label={label} value={value} onChange={(event) => onChange(Number(event.target.value))}>
      {reachesToChoose(value).map((semitones) => (
        <option key={semitones} value={semitones}>
          {shortInterval(semitones)}
        </option>
      ))}
    </SelectField>
  );
}
