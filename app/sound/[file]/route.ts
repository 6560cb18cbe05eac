import { findSoundFile } from "@/app/_sound/sound-files";

export const dynamic = "force-dynamic";

/** The sounds and the program that plays them. Public material, named by its content, so that anybody may keep it. */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ file: string }> },
): Promise<Response> {
  const { file } = await params;
  const found = await findSoundFile(file);
  if (found === null) return new Response(null, { status: 404 });
  return new Response(found.bytes, {
    headers: {
      "content-type": found.type,
      "content-length": `${found.bytes.byteLength}`,
      "cache-control": "public, max-age=31536000, immutable",
      "x-content-type-options": "nosniff",
    },
  });
}
