"use client";

import { useState } from "react";
import type { HandsDesk } from "@/app/_data/desk/hands-desk";
import { Button } from "@/app/_ui/button";
import { Evidence } from "@/app/_ui/evidence";
import { Icon } from "@/app/_ui/icon";
import { sayShortDay } from "@/app/_ui/say-short-day";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import styles from "./hands-card.module.css";
import { HandsDialog } from "./hands-dialog";
import { sayFigure, shortInterval } from "./passage-words";
import { sayLeaps } from "./read-profile";

/** The pianist's own numbers, by which everything on this screen is judged. */
export function HandsCard({ mine }: { mine: NonNullable<HandsDesk["mine"]> }) {
  const [isChanging, setIsChanging] = useState(false);
  const { profile, givenAt } = mine;
  return (
    <section className={styles.card} aria-label="Your hands">
      <h2>Your hands</h2>
      <dl>
        {figuresOf(profile).map(({ name, value }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <Evidence summary="At most, and the rest" isOver>
        <ul className={styles.rest}>
          <li>
            Left hand: <b>{shortInterval(profile.left.comfortable)}</b> with ease,{" "}
            <b>{shortInterval(profile.left.possible)}</b> when it must be.
          </li>
          <li>
            Right hand: <b>{shortInterval(profile.right.comfortable)}</b> with ease,{" "}
            <b>{shortInterval(profile.right.possible)}</b> when it must be.
          </li>
          <li>
            The same key <b>{sayFigure(profile.repeatedNotes)}</b> times a second, runs of{" "}
            <b>{sayFigure(profile.runs)}</b> notes a second, leaps: <b>{sayLeaps(profile.leaps)}</b>.
          </li>
          <li>
            They are guides, not medical advice: pain or numbness is a reason to stop and ask a teacher or a
            clinician.
          </li>
        </ul>
      </Evidence>
      <p className={styles.given}>
        {givenAt === null
          ? "Usual hands, until you say otherwise. Only you see yours."
          : `You gave these on ${sayShortDay(givenAt)}. Only you see them.`}
      </p>
      <Button small wide onClick={() => setIsChanging(true)}>
        <Icon name="pencil" small /> Change
      </Button>
      <HandsDialog isOpen={isChanging} mine={mine} onClose={() => setIsChanging(false)} />
    </section>
  );
}

function figuresOf(profile: HandsProfile) {
  return [
    { name: "Reach, left", value: shortInterval(profile.left.comfortable) },
    { name: "Reach, right", value: shortInterval(profile.right.comfortable) },
    { name: "Repeated chords", value: `${sayFigure(profile.repeatedChords)} a second` },
    { name: "Octaves in a row", value: `${sayFigure(profile.octavesInARow)} a second` },
  ];
}
