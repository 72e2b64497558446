using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

/// <summary>Texts that a quote starts with where the company has not written its own.</summary>
public static class QuoteTexts
{
    public const string Compliance =
        "The work follows the radon mitigation standard that applies here, the building code and the manufacturers' instructions. Where they differ, the stricter one is followed. Electrical work is done by a licensed electrician where the code asks for one.";

    public const string Promise =
        "If a test made after the work, by the protocol and with the house as it was agreed, shows 4.0 pCi/L or more, we adjust or extend the system until it is below, at no charge for our labor, for one year. The promise does not cover changes to the house, a system that is switched off, or parts damaged by others. What was computed is a forecast, not a guarantee of a radon level; only a test shows the level.";

    public const string GuaranteeConditions =
        "The fan runs without a break, its pipe and gauge are left as they were fitted, the house is not altered, the test is made by the protocol with the house closed, and we are told of its result within 30 days.";

    public const string Cautions =
        "A fan that draws air from under the slab can draw combustion gas into the house. Natural-draft appliances are checked before we leave, and the system is not left running if one of them spills.\n"
        + "Coring concrete makes silica dust; stay out of the room while it is done. Tell us about vermiculite, asbestos or old paint before the work starts.\n"
        + "Solvent cement and primer for plastic pipe give off fumes and burn easily; the rooms are aired while they are used.\n"
        + "Do not touch the fan's wiring, and do not climb on the roof to look at the pipe.";

    public const string OwnersPart =
        "Leave the fan on all year. Look at the gauge once a month and call us when it reads zero or has moved from the mark. Change the alarm's battery when it asks for it. Have the house tested again every two years, and after building work, a new heating appliance or a change of how rooms are used. Keep the outdoor end of the pipe free of snow and nests.";

    public const string TimeNeeded = "One working day in the house, about 6 to 8 hours. The test after the work starts at least 24 hours later and takes at least 48 hours.";

    /// <summary>What the days until invoices are due say in words.</summary>
    public static string Terms(int depositDueDays, int balanceDueDays)
    {
        var deposit = depositDueDays == 0 ? "when the quote is accepted" : $"within {Days(depositDueDays)} after the quote is accepted";
        var rest = balanceDueDays == 0 ? "on the day the work is finished" : $"within {Days(balanceDueDays)} after the work is finished";
        return $"The deposit is due {deposit}, the rest {rest}.";
    }

    /// <summary>The statement that 16 CFR 429.1(a) asks for near the signature. Its words from memory: have counsel read it.</summary>
    public const string CancelStatement =
        "You, the buyer, may cancel this transaction at any time prior to midnight of the third business day after the date of this transaction. See the attached notice of cancellation form for an explanation of this right.";

    /// <summary>What the form of 16 CFR 429.1(b) must explain. After that form, from memory: have counsel read it.</summary>
    public const string CancelNotice =
        "You may cancel this transaction, without any penalty or obligation, within three business days from the date below. Saturdays count as business days; Sundays and federal holidays do not.\n"
        + "If you cancel, anything you traded in, any payment you made and any paper you signed that could be turned into money is returned to you within ten business days after we receive your cancellation, and any security interest arising from the transaction is cancelled.\n"
        + "If you cancel, you make available to us at your residence, in substantially as good condition as when received, any goods delivered to you; or you may follow our instructions for their return at our expense and risk. If we do not pick them up within twenty days of your cancellation, you may keep or dispose of them without further obligation. If you fail to make them available, or agree to return them and do not, you remain liable for what the contract asks of you.\n"
        + "To cancel, mail or deliver a signed and dated copy of this notice, or any other written notice, or send a telegram, to the seller named below, not later than midnight of the date below.";

    public static void Fill(QuoteRevision revision, CompanyProfile company)
    {
        revision.Introduction = company.QuoteIntroduction;
        revision.Promise = Or(company.QuotePromise, Promise);
        revision.Cautions = Or(company.QuoteCautions, Cautions);
        (revision.DepositDueDays, revision.BalanceDueDays) = (company.DepositDueDays, company.BalanceDueDays);
        revision.Terms = Or(company.QuoteTerms, Terms(company.DepositDueDays, company.BalanceDueDays));
        revision.CancellationNotice = Or(company.CancellationNotice, CancelNotice);
        (revision.GuaranteePCiL, revision.GuaranteeMonths, revision.GuaranteeVisits) = (company.GuaranteePCiL, company.GuaranteeMonths, company.GuaranteeVisits);
        revision.GuaranteeConditions = Or(company.GuaranteeConditions, GuaranteeConditions);
        revision.OwnersPart = OwnersPart;
        revision.TimeNeeded = TimeNeeded;
    }

    private static string Days(int days) => days == 1 ? "1 day" : $"{days} days";

    private static string Or(string text, string otherwise) => string.IsNullOrWhiteSpace(text) ? otherwise : text;
}
