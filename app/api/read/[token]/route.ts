import { addressOf } from "@/app/_data/client-address";
import { problemResponse } from "@/app/api/_edge/problem-response";
import { readingResponse } from "@/app/api/_edge/reading-response";
import { readByLink } from "@/lib/store/readers/open-reader-link";

/** The pages of the edition that a reader's link opens: `?for=pianist|soloist`, answered as for members. */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ token: string }> },
): Promise<Response> {
  const { token } = await params;
  const reader = new URL(request.url).searchParams.get("for") ?? undefined;
  const address = addressOf(request.headers.get("x-forwarded-for"));
  const asked = await readByLink(token, address, { for: reader });
  return asked.ok ? readingResponse(asked.value) : problemResponse(asked.problem);
}
