using BenchmarkDotNet.Running;
using MitigationOffice.Benchmarks.Network;
using MitigationOffice.Benchmarks.Papers;
using MitigationOffice.Benchmarks.Reports;

if (args is ["reports-fill", var file]) return await ReportRatio.FillAsync(file);
if (args is ["reports-next", var frozen]) return await ReportRatio.NextAsync(frozen);
if (args is ["reports", ..]) return await ReportRatio.PrintAsync();
if (args is ["quote-paper", ..]) return QuotePaperRatio.Print();
if (args is ["network-ratio", ..]) return NetworkRatio.Print();
BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
return 0;
