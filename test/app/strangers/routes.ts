import { writePieceArchive } from "@/lib/archive/write-piece-archive";
import { buildFullPiece } from "@/test/builders/build-piece-archive";
import { duoSource } from "@/test/lib/store/duo-source";
import type { BusyDesk } from "./desk";

/** A request to a route, with the parts of it that a stranger would change. */
export type AskRoute = (
  desk: BusyDesk,
  change: { readonly pieceId?: string; readonly origin?: string | null },
) => {
  readonly path: string;
  readonly params: Record<string, string>;
  readonly body?: FormData | string;
  readonly origin?: string | null;
};

export interface RouteCase {
  /** By method. What a reader may ask for is asked by one at the end. */
  readonly requests: Readonly<Record<string, AskRoute>>;
  /** Open to everybody by design. */
  readonly isOpen?: true;
  /** Who may ask for it, where a reader may not. */
  readonly by?: "coach";
}

const open = () => ({ path: "/", params: {} });

function form(fields: Readonly<Record<string, string>> = {}): FormData {
  const data = new FormData();
  data.set("file", new File([duoSource().slice()], "concertino.musicxml"));
  for (const [name, value] of Object.entries(fields)) data.set(name, value);
  return data;
}

function pieceForm(fields: Readonly<Record<string, string>> = {}): FormData {
  const data = form(fields);
  const bytes = writePieceArchive(buildFullPiece());
  data.set("file", new File([bytes], "piece.zip"));
  return data;
}

export const routes: Readonly<Record<string, RouteCase>> = {
  "app/api/auth/[...nextauth]/route.ts": { requests: { GET: open, POST: open }, isOpen: true },
  "app/service-worker.js/route.ts": { requests: { GET: open }, isOpen: true },
  // Public material, the same for everybody; test/app/_sound asks for other names.
  "app/sound/[file]/route.ts": {
    requests: { GET: () => ({ path: "/sound/processor.js", params: { file: "processor.js" } }) },
    isOpen: true,
  },
  // The signature in the link is the key; test/app/_mail tries others.
  "app/api/unsubscribe/[token]/route.ts": { requests: { POST: open }, isOpen: true },
  // The token in the link is the key; the doors in strangers.test.ts try others.
  "app/api/read/[token]/route.ts": { requests: { GET: open }, isOpen: true },
  "app/api/read/[token]/[key]/[system]/route.ts": { requests: { GET: open }, isOpen: true },
  "app/api/pieces/route.ts": {
    requests: {
      POST: (_desk, { origin }) => ({
        path: "/api/pieces",
        params: {},
        body: form({ role: "pianist" }),
        origin,
      }),
    },
  },
  "app/api/pieces/preview/route.ts": {
    requests: {
      POST: (_desk, { origin }) => ({ path: "/api/pieces/preview", params: {}, body: form(), origin }),
    },
  },
  "app/api/pieces/archive/route.ts": {
    requests: {
      POST: (_desk, { origin }) => ({
        path: "/api/pieces/archive",
        params: {},
        body: pieceForm({ who: "p1" }),
        origin,
      }),
    },
  },
  "app/api/pieces/archive/look/route.ts": {
    requests: {
      POST: (_desk, { origin }) => ({
        path: "/api/pieces/archive/look",
        params: {},
        body: pieceForm(),
        origin,
      }),
    },
  },
  "app/api/account/account.zip/route.ts": {
    requests: { GET: () => ({ path: "/api/account/account.zip", params: {} }) },
  },
  "app/api/pieces/[pieceId]/piece.zip/route.ts": {
    requests: {
      GET: (desk, { pieceId = desk.pieceId }) => ({
        path: `/api/pieces/${pieceId}/piece.zip`,
        params: { pieceId },
      }),
    },
    by: "coach",
  },
  "app/api/pieces/[pieceId]/room-ticket/route.ts": {
    requests: {
      POST: (desk, { pieceId = desk.pieceId, origin }) => ({
        path: `/api/pieces/${pieceId}/room-ticket`,
        params: { pieceId },
        origin,
      }),
    },
  },
  "app/api/pieces/[pieceId]/passage/route.ts": {
    requests: {
      POST: (desk, { pieceId = desk.pieceId, origin }) => ({
        path: `/api/pieces/${pieceId}/passage`,
        params: { pieceId },
        body: JSON.stringify({
          sourceHash: desk.open.terms.sourceHash,
          ...{ fromBar: 2, toBar: 3, rewrite: null, as: "printed" },
        }),
        origin,
      }),
    },
  },
  "app/api/pieces/[pieceId]/changed-at/route.ts": {
    requests: {
      GET: (desk, { pieceId = desk.pieceId }) => ({
        path: `/api/pieces/${pieceId}/changed-at`,
        params: { pieceId },
      }),
    },
  },
  "app/api/pieces/[pieceId]/source/[hash]/route.ts": {
    requests: {
      GET: (desk, { pieceId = desk.pieceId }) => ({
        path: `/api/pieces/${pieceId}/source/${desk.sourceHash}`,
        params: { pieceId, hash: desk.sourceHash },
      }),
    },
  },
  "app/api/pieces/[pieceId]/source/route.ts": {
    requests: {
      GET: (desk, { pieceId = desk.pieceId }) => ({
        path: `/api/pieces/${pieceId}/source`,
        params: { pieceId },
      }),
    },
  },
  "app/api/pieces/[pieceId]/editions/[number]/[file]/route.ts": {
    requests: {
      GET: (desk, { pieceId = desk.pieceId }) => ({
        path: `/api/pieces/${pieceId}/editions/1/edition.musicxml`,
        params: { pieceId, number: "1", file: "edition.musicxml" },
      }),
    },
  },
  "app/api/pieces/[pieceId]/editions/[number]/edition.zip/route.ts": {
    requests: {
      GET: (desk, { pieceId = desk.pieceId }) => ({
        path: `/api/pieces/${pieceId}/editions/1/edition.zip`,
        params: { pieceId, number: "1" },
      }),
    },
  },
  "app/api/pieces/[pieceId]/editions/[number]/reading/route.ts": {
    requests: {
      GET: (desk, { pieceId = desk.pieceId }) => ({
        path: `/api/pieces/${pieceId}/editions/1/reading?for=soloist`,
        params: { pieceId, number: "1" },
      }),
    },
  },
  "app/api/pieces/[pieceId]/editions/[number]/pages/route.ts": {
    requests: {
      GET: (desk, { pieceId = desk.pieceId }) => ({
        path: `/api/pieces/${pieceId}/editions/1/pages?reader=soloist`,
        params: { pieceId, number: "1" },
      }),
    },
  },
  "app/api/pieces/[pieceId]/editions/[number]/pages/[page]/route.ts": {
    requests: {
      GET: (desk, { pieceId = desk.pieceId }) => ({
        path: `/api/pieces/${pieceId}/editions/1/pages/1?reader=soloist`,
        params: { pieceId, number: "1", page: "1" },
      }),
    },
  },
  "app/api/pieces/[pieceId]/editions/newest/route.ts": {
    requests: {
      GET: (desk, { pieceId = desk.pieceId }) => ({
        path: `/api/pieces/${pieceId}/editions/newest`,
        params: { pieceId },
      }),
    },
  },
  "app/api/pieces/[pieceId]/performances/[performanceId]/calendar.ics/route.ts": {
    requests: {
      GET: ({ performance, ...desk }, { pieceId = desk.pieceId }) => ({
        path: `/api/pieces/${pieceId}/performances/${performance.id}/calendar.ics`,
        params: { pieceId, performanceId: performance.id },
      }),
    },
    by: "coach",
  },
  "app/api/programmes/[programmeId]/calendar.ics/route.ts": {
    requests: {
      GET: (desk, { pieceId }) => {
        const programmeId = pieceId ?? desk.programmeId;
        return { path: `/api/programmes/${programmeId}/calendar.ics`, params: { programmeId } };
      },
    },
    by: "coach",
  },
  "app/api/pieces/[pieceId]/engraving/route.ts": {
    requests: {
      GET: (desk, { pieceId = desk.pieceId }) => ({
        path: `/api/pieces/${pieceId}/engraving?view=open&layout=phone`,
        params: { pieceId },
      }),
    },
  },
  "app/api/pieces/[pieceId]/engraving/[key]/[system]/route.ts": {
    requests: {
      GET: (desk, { pieceId = desk.pieceId }) => ({
        path: `/api/pieces/${pieceId}/engraving/${desk.engravingKey}/0`,
        params: { pieceId, key: desk.engravingKey, system: "0" },
      }),
    },
  },
};

export interface PageCase {
  readonly props: (desk: BusyDesk) => Record<string, string>;
  readonly access: "everybody" | "signed-in" | "members";
  /** Who finds it, where a reader finds nothing. */
  readonly by?: "coach";
}

const ofPiece = ({ pieceId }: BusyDesk) => ({ pieceId });

export const pages: Readonly<Record<string, PageCase>> = {
  "app/(desk)/page.tsx": { props: () => ({}), access: "signed-in" },
  "app/(desk)/account/page.tsx": { props: () => ({}), access: "signed-in" },
  "app/(desk)/pieces/bring-in/page.tsx": { props: () => ({}), access: "signed-in" },
  "app/(desk)/pieces/new/page.tsx": { props: () => ({}), access: "signed-in" },
  "app/(desk)/performances/page.tsx": { props: () => ({}), access: "signed-in" },
  "app/(desk)/performances/programme/[programmeId]/page.tsx": {
    props: ({ programmeId }) => ({ programmeId }),
    access: "members",
    by: "coach",
  },
  "app/(desk)/pieces/[pieceId]/stopwatch/page.tsx": { props: ofPiece, access: "members" },
  "app/(desk)/pieces/[pieceId]/breath/page.tsx": { props: ofPiece, access: "members" },
  "app/(desk)/pieces/[pieceId]/editions/page.tsx": { props: ofPiece, access: "members" },
  "app/(desk)/pieces/[pieceId]/history/page.tsx": { props: ofPiece, access: "members" },
  "app/(desk)/pieces/[pieceId]/page.tsx": { props: ofPiece, access: "members" },
  "app/(desk)/pieces/[pieceId]/hands/page.tsx": { props: ofPiece, access: "members" },
  "app/(desk)/pieces/[pieceId]/plan/page.tsx": { props: ofPiece, access: "members" },
  "app/(desk)/pieces/[pieceId]/print/page.tsx": { props: ofPiece, access: "members" },
  "app/(desk)/pieces/[pieceId]/settings/page.tsx": { props: ofPiece, access: "members" },
  "app/(stand)/pieces/[pieceId]/read/[number]/page.tsx": {
    props: ({ pieceId }) => ({ pieceId, number: "1" }),
    access: "members",
  },
  "app/read/[token]/page.tsx": {
    props: ({ readerLink }) => ({ token: readerLink.token }),
    access: "everybody",
  },
  "app/invitation/[token]/page.tsx": {
    props: ({ invitation }) => ({ token: invitation.token }),
    access: "everybody",
  },
  "app/sign-in/page.tsx": { props: () => ({}), access: "everybody" },
  "app/unsubscribe/[token]/page.tsx": { props: () => ({ token: "no-such.token" }), access: "everybody" },
};
