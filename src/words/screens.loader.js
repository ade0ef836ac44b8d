import { registerLoaders } from 'wuchale/load-utils';
import { loadCatalog, loadIDs } from './.wuchale/screens.proxy.js';

export const getRuntime = registerLoaders('screens', loadCatalog, loadIDs);
export const getRuntimeRx = getRuntime;
