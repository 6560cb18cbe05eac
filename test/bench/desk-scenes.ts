import type { Page } from "playwright-core";

/** Something that is done at the desk while the study, the sound or the score works. */
export interface DeskScene {
  readonly what: string;
  /** Brings the page to where it begins; not measured. */
  readonly prepare?: (page: Page) => Promise<void>;
  readonly act: (page: Page) => Promise<void>;
}

/** What the scenes are played on. */
export interface DeskPiece {
  readonly name: string;
  /** Path of the piece: "/pieces/…". */
  readonly path: string;
  /** Number of the cut that is open when one comes, and of another one. */
  readonly cut: number;
  readonly otherCut: number;
  /** The tutti that is searched, by its place in the list. */
  readonly tutti: number;
}

const heardMilliseconds = 5000;
const steps = 8;

/** The whole desk in the order in which a player comes to it. Each scene begins where the one before ended. */
export function scenesOf(piece: DeskPiece): DeskScene[] {
  const found = (page: Page) => page.locator("[data-search] [aria-busy=false]").getByText(/cuts? found/);
  const find = (page: Page) => page.getByRole("button", { name: /^Find( again)?$/ }).click();
  const open = (page: Page, cut: number) =>
    page
      .getByRole("button", { name: new RegExp(`^Cut ${cut}\\b`) })
      .first()
      .click();
  const others = (page: Page) =>
    page.locator("section[aria-busy=false]", { hasText: "Other joins in this tutti" }).getByRole("listitem");
  return [
    {
      what: "open the card of a cut, until its tutti was searched",
      prepare: async (page) => {
        await page.goto(piece.path);
        await page.getByRole("region", { name: "Score" }).locator("g.note").first().waitFor();
        await others(page).first().waitFor();
        await open(page, piece.otherCut);
      },
      act: async (page) => {
        await open(page, piece.cut);
        await others(page).first().waitFor();
      },
    },
    {
      what: "search a tutti by beats",
      prepare: async (page) => {
        await page
          .getByRole("button", { name: /^Find cuts in / })
          .nth(piece.tutti)
          .click();
        await found(page).waitFor();
        await page.getByText("Nothing more to keep", { exact: false }).click();
        await page.getByText("By beats", { exact: true }).click();
      },
      act: async (page) => {
        await find(page);
        await found(page).waitFor();
      },
    },
    {
      what: "look at three of the cuts found",
      act: async (page) => {
        const looks = page.locator("[data-search]").getByRole("button", { name: /^Look at / });
        for (let at = 0; at < Math.min(3, await looks.count()); at += 1) {
          await looks.nth(at).click();
          await page.getByRole("button", { name: "Let this cut go" }).waitFor();
        }
      },
    },
    {
      what: "begin a search by beats and cancel it",
      prepare: async (page) => {
        // Another question than the last one: the same would be answered already.
        await page.getByLabel("Keep before the entry").selectOption({ label: "the last 6 bars" });
      },
      act: async (page) => {
        await find(page);
        // A short search may be over before.
        const cancel = page.getByRole("button", { name: "Cancel" });
        await cancel.or(found(page)).first().waitFor();
        if (await cancel.isVisible()) await cancel.click({ timeout: 1000 }).catch(() => {});
      },
    },
    {
      what: "listen for five seconds",
      act: async (page) => {
        const controls = page.getByRole("button", { name: "Listen", exact: true }).first();
        await controls.click();
        await page.locator("[data-playing]").first().waitFor();
        await page.waitForTimeout(heardMilliseconds);
        await page.getByRole("button", { name: "Pause", exact: true }).first().click();
      },
    },
    {
      what: `move the plan's slider by ${steps} steps`,
      prepare: async (page) => {
        await page.goto(`${piece.path}/plan`);
        await page.getByRole("slider", { name: /^Length/ }).waitFor();
        await page.getByRole("slider", { name: /^Length/ }).press("Home");
      },
      act: async (page) => {
        for (let step = 0; step < steps; step += 1) {
          await page.getByRole("slider", { name: /^Length/ }).press("ArrowRight");
        }
      },
    },
  ];
}
