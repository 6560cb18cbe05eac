/** A file to keep, under a name that may hold any letter (RFC 6266 and RFC 8187). */
export function download(
  bytes: Uint8Array<ArrayBuffer> | string,
  file: { readonly name: string; readonly type: string; readonly shown?: boolean },
): Response {
  const plain = file.name.replace(/[^\w.() -]/g, "_");
  const encoded = encodeURIComponent(file.name).replace(
    /['()*]/g,
    (sign) => `%${sign.charCodeAt(0).toString(16)}`,
  );
  const place = file.shown ? "inline" : "attachment";
  return new Response(bytes, {
    headers: {
      "content-type": file.type,
      "content-disposition": `${place}; filename="${plain}"; filename*=UTF-8''${encoded}`,
      "cache-control": "private, no-cache",
      "x-content-type-options": "nosniff",
    },
  });
}
