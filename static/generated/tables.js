// Generated from checks/tables by checks.generate: change that, then run `python -m checks.generate`.

export const tables = {
};
