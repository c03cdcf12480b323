// The script of a worker, for whoever finds it beside the package's files.
import { answerSweeps } from './answerSweeps.js';

answerSweeps();
