/** Whether something of the device may be used without a question appearing on the screen. */
export type Leave = 'given' | 'to be asked' | 'refused' | 'not known';

/** What the browser says of a leave. Never fails, and asks nothing; some browsers do not tell. */
export async function leaveFor(
  name: PermissionName,
  permissions: Pick<Permissions, 'query'> | null,
): Promise<Leave> {
  try {
    const status = await permissions?.query({ name });
    switch (status?.state) {
      case 'granted':
        return 'given';
      case 'prompt':
        return 'to be asked';
      case 'denied':
        return 'refused';
      case undefined:
        return 'not known';
    }
  } catch {
    return 'not known';
  }
}
