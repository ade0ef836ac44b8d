const DIRECTIVE = /^\s*(eslint-disable(?:-next-line|-line)?)\b/;

/** ESLint rule: whoever switches a rule off says which one, and why, after ` -- `. */
export const explainedDisables = {
  meta: {
    type: 'suggestion',
    docs: { description: 'a switched-off rule is named and carries a reason' },
    messages: {
      unexplained: 'Name the rule and say why after " -- ": // {{directive}} rule-name -- reason',
    },
    schema: [],
  },
  create(context) {
    return {
      Program() {
        for (const comment of context.sourceCode.getAllComments()) {
          const directive = DIRECTIVE.exec(comment.value)?.[1];
          if (directive === undefined) continue;
          const [rules, reason] = comment.value.replace(DIRECTIVE, '').split(/\s--\s/, 2);
          if (rules.trim() !== '' && (reason ?? '').trim().length >= 10) continue;
          context.report({ loc: comment.loc, messageId: 'unexplained', data: { directive } });
        }
      },
    };
  },
};
