import type { DeskPerson } from "@/app/_data/desk/desk";
import { inkOf } from "@/app/_ui/party";
import styles from "./comment-words.module.css";
import { splitMentions } from "./mention";

/** The words of a comment; a name that mentions somebody stands in that person's ink. */
export function CommentWords({ text, people }: { text: string; people: readonly DeskPerson[] }) {
  let at = 0;
  return splitMentions(text, people).map((stretch) => {
    const key = at;
    at += stretch.text.length;
    return stretch.person ? (
      <b key={key} className={styles[inkOf(stretch.person.role)]}>
        {stretch.text}
      </b>
    ) : (
      <span key={key}>{stretch.text}</span>
    );
  });
}
