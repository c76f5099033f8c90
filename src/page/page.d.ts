/** Texts that the build puts in. */
declare module '*.yaml' {
  const text: string;
  export default text;
}
declare module '*.csv' {
  const text: string;
  export default text;
}
declare module 'first-answers' {
  /** Answers to the example's first questions, by `keyOf`. */
  const answers: Readonly<Record<string, unknown>>;
  export default answers;
}
declare const VERSION: string;
