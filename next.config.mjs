/** @type {import("next").NextConfig} */
const config = {
  poweredByHeader: false,
  reactStrictMode: true,
  // The engraver finds its WebAssembly beside itself; the PDF writer its fonts' metrics.
  serverExternalPackages: ["verovio", "pdfkit"],
  // `npm run validate` checks types, tests included; a start need not do it again.
  typescript: { ignoreBuildErrors: true },
};

export default config;
