using MitigationOffice.Business.Documents;
using PdfSharp.Pdf;
using PdfSharp.Pdf.IO;

namespace MitigationOffice.Business.Quotes.Papers;

/// <summary>The quote exactly as it was sent, with the sheets of acceptance behind it, in one file.</summary>
public static class SignedCopy
{
    public static byte[] Make(byte[] quote, byte[] acceptance, PaperHead head)
    {
        using var shown = new MemoryStream(quote);
        using var behind = new MemoryStream(acceptance);
        using var document = PdfReader.Open(shown, PdfDocumentOpenMode.Modify);
        using var sheets = PdfReader.Open(behind, PdfDocumentOpenMode.Import);
        CarryTags.Append(document, sheets);
        return PaperBytes.Save(document, head);
    }
}
