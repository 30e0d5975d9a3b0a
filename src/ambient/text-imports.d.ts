/** Files that the build puts into the page as text. Headless code does not import them: Node has no such imports. */
declare module '*?raw' {
  const text: string;
  export default text;
}

declare module '*.css?inline' {
  const text: string;
  export default text;
}
