using MitigationOffice.Web.Commands;

return await CommandLine.RunAsync(args);

/// <summary>Named so that tests can start the same program.</summary>
public partial class Program;
