using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Filters;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;

namespace MitigationOffice.Web.Setup.Lists;

/// <summary>Takes private addresses and owners out of every list that leaves the program as a file, the state's own reports alone
/// excepted. The owner of the company may ask for them with "private=show".</summary>
public sealed class HidePrivate : IAsyncPageFilter
{
    private const string StatesOwn = "/StateReports/Run";

    public Task OnPageHandlerSelectionAsync(PageHandlerSelectedContext context) => Task.CompletedTask;

    public async Task OnPageHandlerExecutionAsync(PageHandlerExecutingContext context, PageHandlerExecutionDelegate next)
    {
        var done = await next();
        if (done.Result is not FileContentResult { ContentType: { } type } file || !type.StartsWith("text/csv", StringComparison.Ordinal)) return;
        if (context.ActionDescriptor is CompiledPageActionDescriptor { ViewEnginePath: StatesOwn }) return;
        var http = context.HttpContext;
        if (http.User.IsInRole("Owner") && http.Request.Query["private"] == "show") return;
        if (await PrivateHouses.ReadAsync(http.RequestServices.GetRequiredService<OfficeDb>(), http.RequestAborted) is not { } houses) return;
        done.Result = new FileContentResult(Hidden(file.FileContents, houses), type) { FileDownloadName = file.FileDownloadName };
    }

    /// <summary>The same file with the cells replaced that name a private house or its owner; its head line stays.</summary>
    public static byte[] Hidden(byte[] csv, PrivateHouses houses)
    {
        var marked = csv.AsSpan().StartsWith(Encoding.UTF8.Preamble);
        using var reader = new StreamReader(new MemoryStream(csv), new UTF8Encoding(false));
        using var parser = new CsvParser(reader, new CsvConfiguration(CultureInfo.InvariantCulture) { BadDataFound = null });
        var head = parser.Read() ? parser.Record! : [];
        var rows = new List<IReadOnlyList<string>>();
        while (parser.Read()) rows.Add([.. parser.Record!.Select(houses.Hide)]);
        var bytes = Encoding.UTF8.GetBytes(Csv.Write(head, rows));
        return marked ? [.. Encoding.UTF8.Preamble, .. bytes] : bytes;
    }
}
