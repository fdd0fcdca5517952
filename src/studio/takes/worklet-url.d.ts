/** The address of a program that is built for itself, as a worker is. */
declare module '*?worker&url' {
  const address: string;
  export default address;
}
