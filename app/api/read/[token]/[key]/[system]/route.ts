import { addressOf } from "@/app/_data/client-address";
import { picture, systemIndex } from "@/app/api/_edge/picture";
import { problemResponse } from "@/app/api/_edge/problem-response";
import { readPictureByLink } from "@/lib/store/readers/open-reader-link";

/** A picture of the pages that a reader's link opens. It is not kept: a link may be taken back. */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ token: string; key: string; system: string }> },
): Promise<Response> {
  const { token, key, system } = await params;
  const address = addressOf(request.headers.get("x-forwarded-for"));
  const read = await readPictureByLink(token, address, { key, index: systemIndex(system) });
  return read.ok ? picture(read.value, false) : problemResponse(read.problem);
}
