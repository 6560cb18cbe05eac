"use client";

import { ButtonLink } from "@/app/_ui/button";
import { Icon, type IconName } from "@/app/_ui/icon";
import { SaveLink } from "@/app/_ui/save-link";
import { SayProblem } from "@/app/_ui/say";
import { useDownload } from "@/app/_ui/use-download";
import styles from "./edition-list.module.css";

export type Paper = "A4" | "Letter";

const files = [
  { file: "pianist.pdf", words: "Pianist’s PDF", made: "the pianist’s pages", icon: "print" },
  { file: "soloist.pdf", words: "Soloist’s PDF", made: "the soloist’s pages", icon: "print" },
  { file: "cut-sheet.pdf", words: "Cut sheet", made: "the cut sheet", icon: "page" },
  { file: "edition.musicxml", words: "MusicXML", made: "the MusicXML", icon: "download" },
  { file: "edition.zip", words: "All of it, sealed", made: "the archive", icon: "download" },
] as const satisfies readonly { file: string; words: string; made: string; icon: IconName }[];

/** The files of one edition. They are engraved when they are asked for, which the page says meanwhile. */
export function Downloads({ pieceId, number, paper }: { pieceId: string; number: number; paper: Paper }) {
  const { start, making, problem } = useDownload();
  const addressOf = (file: string) => {
    const query = file.endsWith(".pdf") ? `?paper=${paper}` : "";
    return `/api/pieces/${encodeURIComponent(pieceId)}/editions/${number}/${file}${query}`;
  };
  const isMade = files.find(({ file }) => addressOf(file) === making);
  const printAddress = `/pieces/${encodeURIComponent(pieceId)}/print?edition=${number}&paper=${paper}`;
  return (
    <div className={styles.files}>
      <ButtonLink kind="settle" wide href={printAddress} aria-label={`Print № ${number} for both`}>
        <Icon name="print" small /> Print for both…
      </ButtonLink>
      <ul aria-label={`Files of № ${number}`}>
        {files.map(({ file, words, icon }) => (
          <li key={file}>
            <SaveLink
              isSmall
              address={addressOf(file)}
              label={`${words} of № ${number}`}
              making={making}
              start={start}
            >
              <Icon name={icon} small /> {words}
            </SaveLink>
          </li>
        ))}
      </ul>
      <p role="status" className={styles.making}>
        {isMade && `Making ${isMade.made} of № ${number}… It starts to load by itself.`}
      </p>
      {problem && <SayProblem>{problem}</SayProblem>}
    </div>
  );
}
