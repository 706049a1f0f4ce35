/** The part of Eleventy 3 that the site uses; the package brings no types. */
declare module "@11ty/eleventy" {
  export interface EleventyConfig {
    setTemplateFormats(formats: readonly string[]): void;
    setUseGitIgnore(use: boolean): void;
    /** As the command line and the defaults have them. */
    readonly directories: { readonly output: string };
    readonly ignores: Set<string>;
    addGlobalData(name: string, data: unknown): void;
    /** A template that is no file. */
    addTemplate(path: string, template: object, data: object): void;
    on(event: "eleventy.after", run: () => Promise<void>): void;
  }

  interface Logger {
    message(): void;
  }

  export default class Eleventy {
    constructor(
      input: string,
      output: string,
      options: { quietMode: boolean; configPath: false; loader: "esm"; config: (config: EleventyConfig) => void },
    );
    readonly logger: { overrideLogger(logger: Record<"log" | "info" | "warn" | "error", () => void>): void };
    readonly errorHandler: { logger: Logger };
    init(): Promise<void>;
    /** Finds files; there once it has been set up. */
    readonly fileSystemSearch: { search(): Promise<readonly string[]> };
    readonly templateData: { getRawImports(): object };
    /** Makes the pages and writes nothing. */
    toJSON(): Promise<readonly { readonly outputPath: string; readonly content: string }[]>;
  }
}
