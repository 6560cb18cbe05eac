"use client";

import { useId } from "react";
import { useAnnounce } from "@/app/_ui/announcer";
import { SayNote, SayProblem } from "@/app/_ui/say";
import { useAction } from "../../_components/use-action";
import { setWantsDigestAction } from "../../actions/set-wants-digest";
import styles from "./news-settings.module.css";
import { Section } from "./section";

/**
 * Whether the viewer gets news by e-mail: their own setting, the same in all their pieces.
 *
 * @param email where they go.
 * @param isSent false while the product has no mail server and only lays messages into a folder.
 */
export function NewsSettings({
  wantsDigest,
  email,
  isSent,
}: {
  wantsDigest: boolean;
  email: string;
  isSent: boolean;
}) {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const id = useId();
  const change = async (wanted: boolean) => {
    const saved = await run(setWantsDigestAction, { wantsDigest: wanted });
    if (saved.ok) announce(wanted ? "You get news by e-mail." : "No more news by e-mail.");
  };
  return (
    <Section
      id="news"
      title="News by e-mail"
      about="What the others did while you were away, once it is quiet again: one message in four hours at most; when somebody names you, one in half an hour. Only yours, and the same in all your pieces."
    >
      <div className={styles.choice}>
        <input
          id={id}
          type="checkbox"
          checked={wantsDigest}
          disabled={isBusy}
          aria-describedby={`${id}-where`}
          onChange={(event) => change(event.target.checked)}
        />
        <label htmlFor={id}>Send me news by e-mail</label>
      </div>
      <div id={`${id}-where`} className={styles.where}>
        To <b>{email}</b>, the address you sign in with. Nobody has checked that it is yours: if it is not,
        turn them off.
      </div>
      {!isSent && (
        <SayNote>No mail server is set up here yet. Messages wait in a folder of the server.</SayNote>
      )}
      {problem && <SayProblem>{problem}</SayProblem>}
    </Section>
  );
}
