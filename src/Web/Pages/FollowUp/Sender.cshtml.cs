using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Messages.Sender;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>Whether the world will believe that our mail is ours: SPF, DKIM and DMARC, looked up or pasted. Nothing is stored.</summary>
public sealed class SenderModel(OfficeDb db, MailSettings mail, LookUpSender lookUp) : PageModel
{
    public sealed class Form
    {
        public string? Domain { get; set; }
        public string? Selector { get; set; }
        public string? Spf { get; set; }
        public string? Dkim { get; set; }
        public string? Dmarc { get; set; }
        public string? SignsFor { get; set; }
        public string? ReturnDomain { get; set; }
    }

    public sealed record Part(string Name, IReadOnlyList<Finding> Findings);

    [BindProperty]
    public Form Input { get; set; } = new();

    public IReadOnlyList<Part> Parts { get; private set; } = [];
    public IReadOnlyList<string> Problems { get; private set; } = [];

    public async Task OnGetAsync() => Input.Domain = await OwnDomainAsync();

    public IActionResult OnPost()
    {
        if (ReadDomain()) Judge(0);
        return Page();
    }

    public async Task<IActionResult> OnPostLookAsync()
    {
        if (!ReadDomain()) return Page();
        var found = await lookUp.RunAsync(Input.Domain!, Input.Selector ?? "", HttpContext.RequestAborted);
        Problems = found.Problems;
        ModelState.Clear();
        // What could not be looked up keeps what was pasted.
        if (found.Problems.Count == 0) (Input.Spf, Input.Dmarc) = (found.Spf, found.Dmarc);
        if (found.Problems.Count == 0 && Input.Selector?.Length > 0) Input.Dkim = found.Dkim;
        Judge(found.LookupsInside);
        return Page();
    }

    private bool ReadDomain()
    {
        Input.Domain = Plain(Input.Domain);
        Input.SignsFor = Plain(Input.SignsFor);
        Input.ReturnDomain = Plain(Input.ReturnDomain);
        Input.Selector = (Input.Selector ?? "").Trim();
        foreach (var text in new[] { Input.Spf, Input.Dkim, Input.Dmarc })
            if (text?.Length > 20_000) ModelState.AddModelError("", "A record is never so long; paste the record alone.");
        if (Uri.CheckHostName(Input.Domain) != UriHostNameType.Dns || !Input.Domain.Contains('.', StringComparison.Ordinal))
            ModelState.AddModelError("Input.Domain", "Write the domain of the sender's address, for example lanternridge.example.");
        if (Input.Selector.Length > 0 && Uri.CheckHostName(Input.Selector) != UriHostNameType.Dns)
            ModelState.AddModelError("Input.Selector", "A selector is a short name of letters, digits and dots; your mail provider tells it.");
        return ModelState.IsValid;
    }

    private void Judge(int lookupsInside)
    {
        var dmarc = SenderRecords.Lines(Input.Dmarc ?? "");
        Parts =
        [
            new("SPF: which servers may send in your name", JudgeSpf.Of(SenderRecords.Lines(Input.Spf ?? ""), lookupsInside)),
            new("DKIM: the signature under each message", JudgeDkim.Of(Input.Dkim ?? "")),
            new("DMARC: what receivers do with mail that is not yours", JudgeDmarc.Of(dmarc)),
            new("Do they agree with the sender?", JudgeAlignment.Of(Input.Domain!, Input.SignsFor ?? "", JudgeDmarc.IsStrict(dmarc, "adkim"), Input.ReturnDomain ?? "", JudgeDmarc.IsStrict(dmarc, "aspf"))),
        ];
    }

    private static string Plain(string? typed)
    {
        var text = (typed ?? "").Trim().TrimEnd('.').ToLowerInvariant();
        return text[(text.LastIndexOf('@') + 1)..];
    }

    private async Task<string> OwnDomainAsync() => Letterhead.Of(await db.Company.AsNoTracking().SingleAsync(), mail).Domain;
}
