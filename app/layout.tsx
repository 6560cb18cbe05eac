import "@fontsource-variable/commissioner/wght.css";
import "@fontsource-variable/petrona/wght.css";
import "@fontsource-variable/petrona/wght-italic.css";
import "./_ui/tokens.css";
import "./_ui/base.css";
import type { Metadata, Viewport } from "next";
import { cookies } from "next/headers";
import type { ReactNode } from "react";
import { Announcer } from "./_ui/announcer";
import { readTheme, themeCookie } from "./_ui/theme";

export const metadata: Metadata = {
  title: { default: "Colla Parte", template: "%s · Colla Parte" },
  description: "The shared desk of a pianist and a soloist: from two parts to one agreed performing edition.",
  robots: { index: false, follow: false },
};

export const viewport: Viewport = {
  width: "device-width",
  initialScale: 1,
  themeColor: [{ color: "#fdfcf9" }],
};

export default async function RootLayout({ children }: { children: ReactNode }) {
  const theme = readTheme((await cookies()).get(themeCookie)?.value);
  return (
    <html lang="en" data-theme={theme}>
      <body>
        <Announcer>{children}</Announcer>
      </body>
    </html>
  );
}
