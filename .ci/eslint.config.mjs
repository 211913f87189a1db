// What the pages' scripts are read for, beside their types, which say what is not defined.
import js from '@eslint/js';

export default [
	js.configs.recommended,
	{
		linterOptions: { reportUnusedDisableDirectives: 'error' },
		rules: {
			'no-undef': 'off',
			'array-callback-return': 'error',
			eqeqeq: ['error', 'always', { null: 'ignore' }],
			'no-shadow': 'error',
			'no-unmodified-loop-condition': 'error',
			'no-unused-vars': ['error', { argsIgnorePattern: '^_$' }],
			'no-var': 'error',
			'prefer-const': ['error', { destructuring: 'all' }],
		},
	},
];
