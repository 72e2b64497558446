using BenchmarkDotNet.Running;
using MitigationOffice.Benchmarks.Network;

if (args is ["network-ratio", ..]) return NetworkRatio.Print();
BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
return 0;
