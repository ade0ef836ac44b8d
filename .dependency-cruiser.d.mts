declare const config: {
  readonly forbidden: readonly { readonly name: string; readonly comment: string }[];
};
export default config;
