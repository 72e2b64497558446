using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;
using NetEscapades.AspNetCore.SecurityHeaders;

namespace MitigationOffice.Web.Setup.Forms;

/// <summary>Lets a script of ours run under the page's security policy: <c>&lt;script src="…" asp-add-nonce&gt;</c>.</summary>
[HtmlTargetElement("script", Attributes = Mark)]
public sealed class NonceTagHelper : TagHelper
{
    private const string Mark = "asp-add-nonce";

    [HtmlAttributeNotBound]
    [ViewContext]
    public ViewContext ViewContext { get; set; } = null!;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        output.Attributes.RemoveAll(Mark);
        output.Attributes.SetAttribute("nonce", ViewContext.HttpContext.GetNonce());
    }
}
