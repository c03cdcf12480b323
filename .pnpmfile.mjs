// The Node platform packages write `os` and `cpu` as plain strings, which the lockfile drops.
// As lists they are kept, and only the package that fits this machine is installed.
export const hooks = {
  readPackage(manifest) {
    if (/^node-(darwin|linux|win)-/.test(manifest.name ?? '')) {
      manifest.os = [manifest.os].flat();
      manifest.cpu = [manifest.cpu].flat();
    }
    return manifest;
  },
};
