using Leafstop.Raw.Decoding;
using Leafstop.Web;

// A decoding worker is this program once more, started by the host. It loads nothing but what it needs: the host is a method of another class.
return args is [HostWishes.WorkerWord] ? DecodingWorker.RunAsProcess() : await HostProcess.RunAsync(args);
