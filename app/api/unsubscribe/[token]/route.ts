import { mailSecret } from "@/app/_mail/mail-secret";
import { unsubscribe } from "@/lib/store/digest/unsubscribe";
import { statusOfProblem } from "@/lib/store/status-of-problem";
import { sayStoreProblem } from "@/lib/store/store-problem";

export const dynamic = "force-dynamic";

interface Context {
  readonly params: Promise<{ token: string }>;
}

/**
 * Turns somebody's messages off by the link in one of them, without a sign-in and from any origin: the signature in the
 * link is all that counts. Mail programs post here by themselves and must not be sent elsewhere (RFC 8058, section 3.1);
 * our own page asks for `?then=page` and gets its reader back.
 */
export async function POST(request: Request, { params }: Context): Promise<Response> {
  const { token } = await params;
  const isOurPage = new URL(request.url).searchParams.get("then") === "page";
  const done = await unsubscribe(token, mailSecret());
  if (isOurPage) return backToPage(token, done.ok);
  return done.ok
    ? answer("You get no more news by e-mail.\n", 200)
    : answer(`${sayStoreProblem(done.problem)}\n`, statusOfProblem(done.problem));
}

/** Relative, so that it leads nowhere but here. */
function backToPage(token: string, isDone: boolean): Response {
  const location = `/unsubscribe/${encodeURIComponent(token)}${isDone ? "?done" : ""}`;
  return new Response(null, { status: 303, headers: { location, "cache-control": "no-store" } });
}

function answer(sentence: string, status: number): Response {
  const headers = { "content-type": "text/plain; charset=utf-8", "cache-control": "no-store" };
  return new Response(sentence, { status, headers });
}
