import type { DeskCut } from "@/app/_data/desk/desk";
import { WithFlats } from "@/app/_ui/music-sign";
import { sayClock } from "@/lib/score/say-clock";
import type { JudgedCut } from "@/lib/study/judge-cut";
import styles from "./cut-why.module.css";
import { sayToday } from "./say-why";

/** What was found when the cut was put forward, as it was kept; and today's judgement where that is another. */
export function CutWhy({ why, judged }: { why: DeskCut["why"]; judged: JudgedCut | null }) {
  if (why === null) return null;
  const today = sayToday(why, judged);
  const { plan } = why;
  return (
    <section className={styles.why} aria-label="Why, as kept when proposed">
      <h4>Why, as kept when proposed</h4>
      <p>
        <b>Join {why.grade}</b>, {sayClock(why.savedSeconds)} shorter.{" "}
        <WithFlats text={why.sentences.join(" ")} />
      </p>
      {plan && (
        <p>
          <b>In a plan.</b> {plan.sentence}
        </p>
      )}
      {today && (
        <p className={styles.today}>
          <b>Today:</b> {today}
        </p>
      )}
    </section>
  );
}
