export { InputError, isInputError } from '@finial/units';
