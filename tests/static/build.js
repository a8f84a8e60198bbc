// Stands for the script that the server writes.
export const BUILD = "tests";
