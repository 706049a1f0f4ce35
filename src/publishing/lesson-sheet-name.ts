/** What the sheet of a lesson is called, by the lesson's number. */
export function lessonSheetName(number: number): string {
  return `lesson-${number}.pdf`;
}
