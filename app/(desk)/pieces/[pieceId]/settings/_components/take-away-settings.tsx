"use client";

import { Icon } from "@/app/_ui/icon";
import { SaveLink } from "@/app/_ui/save-link";
import { SayProblem } from "@/app/_ui/say";
import { useDownload } from "@/app/_ui/use-download";
import { Section } from "./section";
import styles from "./take-away-settings.module.css";

/** The whole piece as one file, in open formats. */
export function TakeAwaySettings({ pieceId }: { pieceId: string }) {
  const { start, making, problem } = useDownload();
  const address = `/api/pieces/${encodeURIComponent(pieceId)}/piece.zip`;
  return (
    <Section
      id="take-away"
      title="Take it with you"
      about="The whole piece as one file: the music as it was uploaded, proposals and answers, comments, breaths, needed rests, every edition with its hash and its approvals, performances. In open formats (MusicXML and JSON), without anybody’s address. It can be checked without this server, and brought in on another; editions keep their hashes."
    >
      <div className={styles.buttons}>
        <SaveLink address={address} making={making} start={start}>
          <Icon name="download" /> Save the whole piece
        </SaveLink>
      </div>
      <div role="status" className={styles.making}>
        {making !== null && "Packing the piece… It starts to load by itself."}
      </div>
      {problem && <SayProblem>{problem}</SayProblem>}
    </Section>
  );
}
