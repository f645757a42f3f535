import { parentPort, workerData } from 'node:worker_threads';
import { FileReader, type ReadSettings } from '../fileReader';

const reader = new FileReader(workerData as ReadSettings);

/** A question is the path of a file, its answer the line of that file. */
parentPort?.on('message', (file: string) => parentPort?.postMessage(reader.read(file)));
