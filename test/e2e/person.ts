import type { Browser, BrowserContext, BrowserContextOptions, Locator, Page } from "playwright-core";

/** Longest wait for something that the product does by itself: a limit for what hangs, not a measure. */
const patienceMilliseconds = 120_000;

/** Somebody at a browser of their own, who sees and taps what a person sees and taps. */
export class Person {
  private constructor(
    readonly page: Page,
    private readonly context: BrowserContext,
    private readonly url: string,
  ) {}

  static async sitDown(
    browser: Browser,
    url: string,
    size = { width: 1440, height: 900 },
    options: BrowserContextOptions = {},
  ): Promise<Person> {
    const context = await browser.newContext({
      baseURL: url,
      viewport: size,
      reducedMotion: "reduce",
      ...options,
    });
    context.setDefaultTimeout(patienceMilliseconds);
    return new Person(await context.newPage(), context, url);
  }

  async signIn(email: string, password: string): Promise<void> {
    await this.page.goto("/sign-in");
    await this.page.getByLabel("Your e-mail").fill(email);
    await this.page.getByLabel("Password").fill(password);
    await this.page.getByRole("button", { name: "Sign in", exact: true }).click();
    await this.page.waitForURL("/");
  }

  async openAccount(name: string, email: string, password: string): Promise<void> {
    await this.page.goto("/sign-in");
    await this.page.getByRole("button", { name: "Open an account" }).click();
    await this.page.getByLabel("Your name").fill(name);
    await this.page.getByLabel("Your e-mail").fill(email);
    await this.page.getByLabel("Password").fill(password);
    await this.page.getByRole("button", { name: "Open an account" }).click();
    await this.page.waitForURL("/");
  }

  async go(path: string): Promise<void> {
    await this.page.goto(path);
  }

  /** Waits until something is on the screen. */
  async sees(what: Locator): Promise<void> {
    await what.first().waitFor({ state: "visible" });
  }

  /** The card of a cut, by its number and, when given, its bars. */
  cut(number: number, bars = ""): Locator {
    return this.page.getByRole("article", { name: new RegExp(`^Cut ${number}: .*${bars}`) });
  }

  /** Waits until notes are engraved on the screen. */
  async seesNotes(): Promise<void> {
    await this.sees(this.page.getByRole("region", { name: "Score" }).locator("g.note"));
  }

  /** Chooses both ends in the form of a cut. Bars by their printed numbers; `goOn` is the first bar played again. */
  async chooseBars(stopBefore: string, goOn: string): Promise<void> {
    const bars = this.page.getByLabel("Bar", { exact: true });
    await bars.nth(0).selectOption({ label: `bar ${stopBefore}` });
    await bars.nth(1).selectOption({ label: `bar ${goOn}` });
  }

  /** Fetches a file as this person's browser would. */
  async fetches(path: string): Promise<{ status: number; type: string; bytes: Uint8Array }> {
    const answer = await this.context.request.get(new URL(path, this.url).href, {
      timeout: patienceMilliseconds,
    });
    return {
      status: answer.status(),
      type: answer.headers()["content-type"] ?? "",
      bytes: new Uint8Array(await answer.body()),
    };
  }

  async leave(): Promise<void> {
    await this.context.close();
  }
}
