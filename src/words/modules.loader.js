import { registerLoaders } from 'wuchale/load-utils';
import { loadCatalog, loadIDs } from './.wuchale/modules.proxy.js';

export const getRuntime = registerLoaders('modules', loadCatalog, loadIDs);
export const getRuntimeRx = getRuntime;
