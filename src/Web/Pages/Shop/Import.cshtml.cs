using System.Text;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Shop;

[Authorize(SignInSetup.OwnerOnly)]
[RequestSizeLimit(5_000_000)]
public sealed class ImportModel(OfficeDb db) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string Kind { get; set; } = "prices";

    [BindProperty]
    public string? Text { get; set; }
    public string? Told { get; private set; }
    public IReadOnlyList<string> Problems { get; private set; } = [];

    /// <summary>Only after a try without problems, and with the very lines that were tried.</summary>
    public bool MayApply { get; private set; }
    public string What => Kind == "fans" ? "fans" : "the price book";
    public IReadOnlyList<string> Columns => Kind == "fans" ? FanFile.Columns : PriceBookFile.Columns;

    public void OnGet()
    {
    }

    public async Task<IActionResult> OnPostAsync(IFormFile? upload, string? act)
    {
        if (upload is { Length: > 0 }) Text = await ReadAsync(upload);
        ModelState.Remove(nameof(Text));
        if (string.IsNullOrWhiteSpace(Text)) Problems = ["Choose a file or paste its lines."];
        else if (Kind == "fans") await FansAsync(Text, act == "read");
        else await PricesAsync(Text, act == "read");
        return Page();
    }

    private async Task PricesAsync(string text, bool apply)
    {
        var file = PriceBookFile.Read(text);
        Tell(file.Items.Count, file.Problems, apply ? null : "items");
        if (!apply || file.Problems.Count > 0) return;
        var (added, changed) = await PriceBookFile.ApplyAsync(db, file);
        Told = $"Read: {added} added, {changed} changed, {file.Items.Count - added - changed} as they were.";
    }

    private async Task FansAsync(string text, bool apply)
    {
        var (fans, problems) = FanFile.Read(text);
        Tell(fans.Count, problems, apply ? null : "fans");
        if (!apply || problems.Count > 0) return;
        var (added, changed) = await FanFile.ApplyAsync(db, fans);
        Told = $"Read: {added} added, {changed} changed, {fans.Count - added - changed} as they were.";
    }

    private void Tell(int count, IReadOnlyList<string> problems, string? tried)
    {
        Problems = problems;
        if (problems.Count > 0 || tried is null) return;
        MayApply = count > 0;
        Told = count == 0 ? "The file holds no lines below its first." : $"{count} {tried}, every line right. Nothing is changed yet.";
    }

    private static async Task<string> ReadAsync(IFormFile upload)
    {
        using var reader = new StreamReader(upload.OpenReadStream(), Encoding.UTF8, detectEncodingFromByteOrderMarks: true);
        return await reader.ReadToEndAsync();
    }
}
