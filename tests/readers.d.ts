/* Independent readers that come without types: what the tests use of them. */

declare module "midi-parser-js" {
  interface ReadEvent {
    readonly deltaTime: number;
    readonly type: number;
    readonly metaType?: number;
    readonly channel?: number;
    readonly data?: number | string | readonly number[];
  }
  interface ReadFile {
    readonly formatType: number;
    readonly timeDivision: number;
    readonly track: readonly { readonly event: readonly ReadEvent[] }[];
  }
  const reader: { parse(file: Uint8Array): ReadFile | false };
  export default reader;
}

declare module "webvtt-parser" {
  export interface ReadNode {
    readonly type: "object" | "text";
    readonly name?: string;
    readonly value?: string;
    readonly children?: readonly ReadNode[];
  }
  export interface ReadCue {
    readonly id: string;
    readonly startTime: number;
    readonly endTime: number;
    readonly text: string;
    readonly tree: ReadNode;
  }
  export class WebVTTParser {
    constructor(entities?: Readonly<Record<string, string>>);
    parse(
      file: string,
      mode: "metadata" | "subtitles" | "chapters",
    ): {
      readonly cues: readonly ReadCue[];
      readonly errors: readonly { readonly message: string; readonly line: number }[];
    };
  }
}
