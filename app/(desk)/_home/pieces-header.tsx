import type { SignedInViewer } from "@/app/_data/viewer";
import { ButtonLink } from "@/app/_ui/button";
import { Header } from "@/app/_ui/header";
import { Icon } from "@/app/_ui/icon";
import { Views } from "@/app/_ui/views";
import { SignOutMenu } from "@/app/sign-in/_components/sign-out-menu";
import styles from "./pieces-header.module.css";

const views = (
  <Views
    label="Main"
    views={[
      { href: "/", label: "Pieces" },
      { href: "/performances", label: "Performances" },
    ]}
  />
);

/** The header of the screens that are about all of one's pieces. On a phone its views stand under it. */
export function PiecesHeader({ viewer }: { viewer: SignedInViewer }) {
  return (
    <>
      <Header views={<div className={styles.views}>{views}</div>} people={<Account viewer={viewer} />} />
      <div className={styles.below}>{views}</div>
    </>
  );
}

function Account({ viewer }: { viewer: SignedInViewer }) {
  return (
    <details className={styles.account}>
      <summary>
        {viewer.name}
        <Icon name="down" small />
      </summary>
      <div className={styles.menu}>
        <p>{viewer.email}</p>
        <ButtonLink wide href="/account">
          Your account
        </ButtonLink>
        <SignOutMenu userId={viewer.userId} name={viewer.name} />
      </div>
    </details>
  );
}
